namespace SoloRide.Batteries;

/// <summary>Tasks of the evening before.</summary>
public enum EveningAction
{
    /// <summary>Charge to full.</summary>
    Charge,

    /// <summary>Fresh cells, or spare cells to pack.</summary>
    Replace,

    /// <summary>Pack something.</summary>
    Pack,

    /// <summary>Look at a date, a registration, a test.</summary>
    Check,

    /// <summary>Set or switch off something.</summary>
    Set,
}
