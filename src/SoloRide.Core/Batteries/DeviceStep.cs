namespace SoloRide.Batteries;

/// <summary>One device in one stretch of time, ready for many samples.</summary>
/// <param name="Hours">[h] Length of the stretch.</param>
/// <param name="GridX">Cell temperature on the grid of <see cref="PowerScenario"/> when the air is as forecast.</param>
/// <param name="GridSlope">[1/K] What an error of the air temperature adds to it.</param>
/// <param name="ExtraW">[W] Draw besides the mode's.</param>
/// <param name="Row">Where the shares of device and mode begin.</param>
/// <param name="Mode">Mode, -1 for off.</param>
internal readonly record struct DeviceStep(double Hours, double GridX, double GridSlope, double ExtraW, int Row, int Mode)
{
    /// <summary>The stretches of each device.</summary>
    public static DeviceStep[][] Of(PowerScenario scenario, PowerCourse course)
    {
        var steps = new DeviceStep[scenario.Count][];
        for (int d = 0; d < steps.Length; d++)
        {
            steps[d] = new DeviceStep[course.Count];
            for (int n = 0; n < course.Count; n++)
            {
                int mode = course.Mode[(n * scenario.Count) + d];
                double warm = scenario.WarmShare[d] * course.WindShare[n];
                double cellC = CellKernel.CellC(course.AirC[n], warm);
                steps[d][n] = new DeviceStep(
                    course.Hours[n], (cellC - PowerScenario.GridLowC) / PowerScenario.GridStepC, (1 - warm) / PowerScenario.GridStepC, course.ExtraW[(n * scenario.Count) + d], scenario.Row(d, mode), mode);
            }
        }

        return steps;
    }
}
