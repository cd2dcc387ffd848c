namespace SoloRide.Batteries;

/// <summary>The course of the typical values: what is stored at the ends of all stretches.</summary>
internal sealed class Typical(PowerCourse course, int devices)
{
    public PowerCourse Course { get; } = course;

    /// <summary>[(stretch) * devices + device] Stored at the beginning of a stretch; the last row is the end.</summary>
    public double[] StoredWh { get; } = new double[(course.Count + 1) * devices];

    /// <summary>First outage within ride and night.</summary>
    public double[] OutageH { get; } = new double[devices];

    /// <summary>First outage with the last draw going on.</summary>
    public double[] BeyondH { get; } = new double[devices];

    public double[] Works { get; } = new double[devices];
}
