namespace SoloRide.Effort;

/// <summary>Adds up where the work on the bike went.</summary>
internal struct LedgerSums
{
    private double _pedal, _motor, _down, _drive, _up, _rolling, _air, _bearings, _brakes;

    public void Add(in StepPhysics s, in StepOutcome o)
    {
        if (o.RiddenFraction <= 0)
        {
            return;
        }

        // Ridden distance and the speed while riding; step means were diluted by the walked part.
        double distance = s.TravelM * o.RiddenFraction;
        double pedal = o.PedalW * o.TimeS, motor = o.AssistW * o.TimeS, brake = o.BrakeW * o.TimeS;
        double v = o.RideSpeedMps, air = v + s.HeadWindMps, cos = 1 / Math.Sqrt(1 + (s.GradeFraction * s.GradeFraction));
        double height = s.MassKg * Internal.Si.GravityMps2 * s.GradeFraction * cos * distance;
        double bearings = (RidePowerKernel.BearingN + (s.B * v)) * distance;
        _pedal += pedal;
        _motor += motor;
        _drive += pedal * (1 - s.DriveEfficiency);
        _brakes += brake;
        _bearings += bearings;
        _air += s.A * air * Math.Abs(air) * distance;
        _rolling += (s.C - RidePowerKernel.BearingN) * distance - height;
        if (height >= 0)
        {
            _up += height;
        }
        else
        {
            _down -= height;
        }
    }

    public readonly WorkLedger Close() => new(_pedal, _motor, _down, _drive, _up, _rolling, _air, _bearings, _brakes);
}
