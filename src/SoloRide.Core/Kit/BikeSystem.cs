namespace SoloRide.Kit;

/// <summary>Parts of a bike as an inspection goes through them.</summary>
public enum BikeSystem
{
    /// <summary>Tyres, tubes, sealant, valves.</summary>
    Tyres,

    /// <summary>Wheels and axles.</summary>
    Wheels,

    /// <summary>Brakes.</summary>
    Brakes,

    /// <summary>Chain, cassette, derailleur and its hanger, shifting.</summary>
    Drivetrain,

    /// <summary>Fork, shock and their bearings.</summary>
    Suspension,

    /// <summary>Headset, hubs, bottom bracket, pivots.</summary>
    Bearings,

    /// <summary>Bolts, frame, bar, stem, seat, pedals, shoes.</summary>
    Bolts,

    /// <summary>Lamps, instruments, their charge and cables.</summary>
    Lamps,
}
