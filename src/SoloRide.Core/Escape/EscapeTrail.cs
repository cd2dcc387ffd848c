using SoloRide.Internal;
using SoloRide.Routes;
using UnitsNet;

namespace SoloRide.Escape;

/// <summary>A trail or road beside the route that may serve as a way out, or be taken by mistake.</summary>
/// <remarks>Immutable.</remarks>
public sealed record EscapeTrail
{
    /// <summary>Makes a trail.</summary>
    /// <param name="name">Its name.</param>
    /// <param name="from">Where its steps begin.</param>
    /// <param name="to">Where its steps end; null for a trail that ends nowhere known.</param>
    /// <param name="steps">The trail in the direction from <paramref name="from"/>.</param>
    /// <exception cref="ArgumentException">No name, or no length.</exception>
    public EscapeTrail(string name, TrailEnd from, TrailEnd? to, IReadOnlyList<TrailStep> steps)
    {
        Name = Guard.NotEmpty(name);
        From = Guard.NotNull(from);
        To = to;
        Steps = [.. Guard.NotNull(steps).Where(s => s.LengthM > 0)];
        if (Steps.Count == 0)
        {
            throw new ArgumentException($"Trail '{name}' needs at least one step with a length above 0 m.", nameof(steps));
        }
    }

    /// <summary>Its name.</summary>
    public string Name { get; }

    /// <summary>Where its steps begin.</summary>
    public TrailEnd From { get; }

    /// <summary>Where its steps end; null when not known.</summary>
    public TrailEnd? To { get; }

    /// <summary>The steps.</summary>
    public IReadOnlyList<TrailStep> Steps { get; }

    /// <summary>Takes a trail from a profile.</summary>
    /// <param name="name">Its name.</param>
    /// <param name="from">Where it begins.</param>
    /// <param name="to">Where it ends; null for a trail that ends nowhere known.</param>
    /// <param name="profile">The trail with its heights, in the direction from <paramref name="from"/>.</param>
    /// <param name="spacing">Longest step; null for 50 m.</param>
    /// <returns>The trail.</returns>
    /// <exception cref="ArgumentException">No name, no length, or a spacing outside 1 m to 10 km.</exception>
    public static EscapeTrail Of(string name, TrailEnd from, TrailEnd? to, ElevationProfile profile, Length? spacing = null)
        => new(name, from, to, Guard.NotNull(profile).Steps(spacing ?? Length.FromMeters(EscapeConstants.TrailSpacingM)));
}
