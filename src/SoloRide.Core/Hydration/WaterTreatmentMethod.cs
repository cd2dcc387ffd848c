namespace SoloRide.Hydration;

/// <summary>A way to make found water fit to drink.</summary>
public enum WaterTreatmentMethod
{
    /// <summary>None: water that is fit to drink as it is.</summary>
    None,

    /// <summary>Filter; what it holds back depends on its pore size.</summary>
    Filter,

    /// <summary>Rolling boil.</summary>
    Boil,

    /// <summary>Household chlorine bleach.</summary>
    Chlorine,

    /// <summary>Iodine tincture.</summary>
    Iodine,

    /// <summary>Chlorine dioxide tablets or drops.</summary>
    ChlorineDioxide,
}
