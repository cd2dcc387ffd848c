namespace SoloRide.Kit;

/// <summary>What an item can do. Repairs and needs ask for functions, items give them.</summary>
public enum KitFunction
{
    /// <summary>Plugs for holes in tubeless tyres.</summary>
    Plug,

    /// <summary>Spare inner tube.</summary>
    Tube,

    /// <summary>Patches for inner tubes.</summary>
    TubePatch,

    /// <summary>Tyre levers.</summary>
    TyreLever,

    /// <summary>Pump or cartridge with head.</summary>
    Air,

    /// <summary>Stiff patch for a cut tyre.</summary>
    TyreBoot,

    /// <summary>Spare valve core and its key.</summary>
    ValveCore,

    /// <summary>Joining link of the chain.</summary>
    ChainLink,

    /// <summary>Chain rivet tool.</summary>
    ChainTool,

    /// <summary>Spare derailleur hanger.</summary>
    Hanger,

    /// <summary>Keys for the bike's bolts.</summary>
    BoltKeys,

    /// <summary>Spare shift cable.</summary>
    ShiftCable,

    /// <summary>Spare brake pads.</summary>
    BrakePads,

    /// <summary>Spoke key.</summary>
    SpokeKey,

    /// <summary>Spare or makeshift spoke.</summary>
    Spoke,

    /// <summary>Strong tape.</summary>
    Tape,

    /// <summary>Cable ties.</summary>
    CableTie,

    /// <summary>Strap.</summary>
    Strap,

    /// <summary>Spare cleat bolts.</summary>
    CleatBolt,

    /// <summary>Second lamp to ride or walk by.</summary>
    SpareLamp,

    /// <summary>Map and compass on paper, or a second instrument.</summary>
    SecondNavigation,

    /// <summary>Second way to make water fit to drink.</summary>
    WaterTreatment,

    /// <summary>Dressings and bandages.</summary>
    FirstAid,

    /// <summary>Satellite messenger, beacon or telephone that works where the ride goes.</summary>
    Messenger,

    /// <summary>Whistle.</summary>
    Whistle,

    /// <summary>Small light to be found by and to see the hands.</summary>
    Light,

    /// <summary>Layers or a bag that keep warm while waiting.</summary>
    Insulation,

    /// <summary>Barrier bag or sheet against wind and wet.</summary>
    BarrierBag,

    /// <summary>Fire lighter.</summary>
    Fire,

    /// <summary>Mirror, panel or other mark seen from the air.</summary>
    SignalMark,

    /// <summary>Net or repellent against insects.</summary>
    InsectProtection,

    /// <summary>Shade and sun protection.</summary>
    SunProtection,
}
