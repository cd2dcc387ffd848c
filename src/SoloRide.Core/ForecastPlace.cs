using SoloRide.Internal;
using UnitsNet;

namespace SoloRide;

/// <summary>A forecast for one place.</summary>
/// <remarks>Immutable.</remarks>
public sealed record ForecastPlace
{
    private readonly double _elevationM;

    /// <summary>Makes a place's forecast.</summary>
    /// <param name="name">Name of the place.</param>
    /// <param name="elevation">Height that the temperatures hold for; null when not stated: no height correction is made.</param>
    /// <param name="hours">At least one, in ascending time.</param>
    /// <param name="position">Where the place is, if known; used to choose between several places.</param>
    /// <param name="issued">When the forecast was issued; null when not stated.</param>
    /// <exception cref="ArgumentException">No hours, or not in ascending order.</exception>
    public ForecastPlace(string name, Length? elevation, IEnumerable<ForecastHour> hours, GeoPoint? position = null, DateTimeOffset? issued = null)
    {
        Name = Guard.NotEmpty(name);
        _elevationM = Si.M(elevation);
        Hours = [.. Guard.NotNull(hours)];
        Position = position;
        Issued = issued;
        if (Hours.Count == 0)
        {
            throw new ArgumentException($"The forecast for '{name}' holds no hours.", nameof(hours));
        }

        for (int i = 1; i < Hours.Count; i++)
        {
            if (Hours[i].Time <= Hours[i - 1].Time)
            {
                throw new ArgumentException($"The forecast for '{name}' must be in ascending time; hour {i + 1} is not.", nameof(hours));
            }
        }
    }

    /// <summary>Name of the place.</summary>
    public string Name { get; }

    /// <summary>Height that the temperatures hold for.</summary>
    public Length? Elevation => Si.Length(_elevationM);

    /// <summary>Where the place is, if known.</summary>
    public GeoPoint? Position { get; }

    /// <summary>When it was issued.</summary>
    public DateTimeOffset? Issued { get; }

    /// <summary>The lines, ascending in time.</summary>
    public IReadOnlyList<ForecastHour> Hours { get; }
}
