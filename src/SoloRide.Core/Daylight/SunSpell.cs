namespace SoloRide.Daylight;

/// <summary>A spell of direct sun.</summary>
/// <param name="From">The Sun's upper limb comes out.</param>
/// <param name="To">It goes behind the skyline.</param>
public readonly record struct SunSpell(DateTimeOffset From, DateTimeOffset To)
{
    /// <summary>Its length.</summary>
    public TimeSpan Length => To - From;
}
