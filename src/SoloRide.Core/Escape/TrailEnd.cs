using SoloRide.Internal;
using UnitsNet;

namespace SoloRide.Escape;

/// <summary>Where a side trail begins or ends: on the route, at an exit, or at a named junction off the route.</summary>
/// <remarks>Immutable.</remarks>
public sealed record TrailEnd
{
    private TrailEnd(double alongM, string? exit, string? junction)
    {
        AlongM = alongM;
        Exit = exit;
        Junction = junction;
    }

    /// <summary>Distance along the route; null when the end is elsewhere.</summary>
    public Length? AlongRoute => Si.Length(AlongM);

    /// <summary>Name of an exit; null when the end is elsewhere.</summary>
    public string? Exit { get; }

    /// <summary>Name of a junction off the route; null when the end is elsewhere.</summary>
    public string? Junction { get; }

    internal double AlongM { get; }

    /// <summary>A place on the route.</summary>
    /// <param name="alongRoute">Distance from the start of the route.</param>
    /// <returns>The end.</returns>
    /// <exception cref="ArgumentOutOfRangeException">Negative or not finite.</exception>
    public static TrailEnd OnRoute(Length alongRoute) => new(Guard.NotNegative(alongRoute.Meters, "m", nameof(alongRoute)), null, null);

    /// <summary>An exit.</summary>
    /// <param name="name">Its name.</param>
    /// <returns>The end.</returns>
    /// <exception cref="ArgumentException">The name is empty.</exception>
    public static TrailEnd AtExit(string name) => new(double.NaN, Guard.NotEmpty(name), null);

    /// <summary>A junction off the route, shared by all trails that name it.</summary>
    /// <param name="name">Its name.</param>
    /// <returns>The end.</returns>
    /// <exception cref="ArgumentException">The name is empty.</exception>
    public static TrailEnd AtJunction(string name) => new(double.NaN, null, Guard.NotEmpty(name));

    /// <summary>Where, in words.</summary>
    /// <returns>Text.</returns>
    public override string ToString() => Exit is not null ? $"exit {Exit}" : Junction is not null ? $"junction {Junction}" : $"km {Text.F(AlongM / 1000, 2)}";
}
