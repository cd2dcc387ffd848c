namespace SoloRide.Escape;

/// <summary>A period without usable daylight, from dusk to dawn.</summary>
/// <param name="From">It begins.</param>
/// <param name="To">It ends; a period that ends before it begins counts for nothing.</param>
public sealed record DarkPeriod(DateTimeOffset From, DateTimeOffset To);
