namespace SoloRide.Kit;

/// <summary>What can fail on bike, lamp, pack or body.</summary>
public enum FailureKind
{
    /// <summary>A hole that the sealant of a tubeless tyre does not close.</summary>
    TubelessHole,

    /// <summary>A puncture or pinch of an inner tube.</summary>
    TubePuncture,

    /// <summary>A cut through the tyre's wall.</summary>
    SidewallCut,

    /// <summary>Valve, valve core or the seat of the tyre loses air.</summary>
    Valve,

    /// <summary>The chain parts.</summary>
    Chain,

    /// <summary>The derailleur hanger bends or breaks.</summary>
    DerailleurHanger,

    /// <summary>Derailleur, shifter or its cable.</summary>
    Shifting,

    /// <summary>Brake pad, hose, cable or lever.</summary>
    Brake,

    /// <summary>Spokes or rim.</summary>
    Wheel,

    /// <summary>Axle, bearing or freehub.</summary>
    AxleOrBearing,

    /// <summary>Seatpost, saddle or its bolt.</summary>
    Seat,

    /// <summary>Bar, stem, fork or frame.</summary>
    FrameOrFork,

    /// <summary>Pedal, cleat or the sole of a shoe.</summary>
    PedalOrShoe,

    /// <summary>The lamp that is ridden by.</summary>
    Lamp,

    /// <summary>What finds the way: instrument, its power or its cable.</summary>
    Navigation,

    /// <summary>Bottle, bladder or pack.</summary>
    WaterCarrier,

    /// <summary>The filter or what else makes water fit to drink.</summary>
    WaterTreatment,

    /// <summary>Cut, sprain or blister of the rider.</summary>
    Body,
}
