namespace SoloRide.Hydration;

/// <summary>Losses that no sweat equation knows; the rider says so.</summary>
public enum GutIllness
{
    /// <summary>None.</summary>
    None,

    /// <summary>Vomiting: drink may not stay down.</summary>
    Vomiting,

    /// <summary>Diarrhoea: water and sodium are lost beyond the sweat.</summary>
    Diarrhoea,

    /// <summary>Both.</summary>
    Both,
}
