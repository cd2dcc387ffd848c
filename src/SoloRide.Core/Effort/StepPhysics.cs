namespace SoloRide.Effort;

/// <summary>All numbers of one step that do not change with the rider's form of the day; SI.</summary>
internal struct StepPhysics
{
    /// <summary>Along the slope [m].</summary>
    public double TravelM;

    /// <summary>Grade, rise over run.</summary>
    public double GradeFraction;

    /// <summary>Air, bearings, and grade with rolling: a(v+w)|v+w|v + bv² + cv.</summary>
    public double A, B, C;

    /// <summary>Head wind [m/s].</summary>
    public double HeadWindMps;

    /// <summary>Technical speed cap [m/s].</summary>
    public double CapMps;

    /// <summary>Share of the step that can be ridden at all.</summary>
    public double RiddenFraction;

    /// <summary>Pedal power and motor power at hand [W].</summary>
    public double PedalW, AssistW;

    /// <summary>Log standard deviation of the pedal power from height and heat; the rider's own comes on top.</summary>
    public double ConditionsLogSd;

    /// <summary>Efficiencies.</summary>
    public double DriveEfficiency, GrossEfficiency;

    /// <summary>Slowest speed on the bike [m/s].</summary>
    public double SlowestRideMps;

    /// <summary>Metabolic power below which riding does not fall [W].</summary>
    public double RideFloorW;

    /// <summary>On foot: body mass [kg], grade [%], load factors and habitual speeds [m/s] with bike pushed, carried, left.</summary>
    public double BodyKg, GradePercent, BikeLoadFactor, OwnLoadFactor, TerrainFactor, PushMps, CarryMps, WalkMps;

    /// <summary>Whole moving mass [kg].</summary>
    public double MassKg;

    /// <summary>Surface and difficulty as given.</summary>
    public TrailSurface Surface;

    /// <summary>Difficulty.</summary>
    public TrailDifficulty Difficulty;
}

/// <summary>What a step comes to at one form of the day; SI.</summary>
internal struct StepOutcome
{
    public TravelMode Mode;
    public double TimeS;
    public double SpeedMps;
    public double RideSpeedMps;
    public double PedalW;
    public double AssistW;
    public double BrakeW;
    public double MetabolicW;
    public double RiddenFraction;

    /// <summary>Share of the time on foot.</summary>
    public double FootShare;
    public bool CapLimited;
    public bool Creeping;
}
