using SoloRide.Internal;
using UnitsNet;

namespace SoloRide.Routes;

/// <summary>What is known of the trail over a stretch of the route, in the open tag sets.</summary>
/// <remarks>Immutable. Tags that are not stated are null or <c>Unknown</c>.</remarks>
public sealed record RouteSection
{
    private readonly double _fromM;
    private readonly double _toM;

    /// <summary>Makes a section.</summary>
    /// <param name="from">Where it begins, from the start of the route.</param>
    /// <param name="to">Where it ends; not before <paramref name="from"/>.</param>
    /// <exception cref="ArgumentException">The section runs backward.</exception>
    public RouteSection(Length from, Length to)
    {
        _fromM = Guard.NotNegative(from.Meters, "m", nameof(from));
        _toM = Guard.NotNegative(to.Meters, "m", nameof(to));
        if (_toM < _fromM)
        {
            throw new ArgumentException($"A section ends at {Text.F(_toM, 1)} m, before it begins at {Text.F(_fromM, 1)} m.", nameof(to));
        }
    }

    /// <summary>Where it begins, from the start of the route.</summary>
    public Length From => Length.FromMeters(_fromM);

    /// <summary>Where it ends.</summary>
    public Length To => Length.FromMeters(_toM);

    /// <summary>Surface class.</summary>
    public TrailSurface Surface { get; init => field = Guard.Defined(value, nameof(Surface)); } = TrailSurface.Unknown;

    /// <summary>Technical difficulty downhill, the number of the <c>mtb:scale</c> tag.</summary>
    public TrailDifficulty Difficulty { get; init => field = Guard.Defined(value, nameof(Difficulty)); } = TrailDifficulty.Unknown;

    /// <summary>Difficulty uphill, the number of the <c>mtb:scale:uphill</c> tag, 0 to 5; null when not stated.</summary>
    public int? UphillLevel { get; init => field = value is { } v ? Guard.InRange(v, 0, 5, "(level)", nameof(UphillLevel)) : null; }

    /// <summary>Land-agency trail difficulty as a number, 0 (easiest) to 4; null when not stated.</summary>
    public int? AgencyLevel { get; init => field = value is { } v ? Guard.InRange(v, 0, 4, "(level)", nameof(AgencyLevel)) : null; }

    /// <summary>Hiking difficulty, the value of the <c>sac_scale</c> tag as a number: 0 strolling, 1 hiking to 6 difficult alpine hiking; null when not stated.</summary>
    public int? HikingLevel { get; init => field = value is { } v ? Guard.InRange(v, 0, 6, "(level)", nameof(HikingLevel)) : null; }

    /// <summary>The value of the <c>smoothness</c> tag as a number: 0 excellent to 7 impassable; null when not stated.</summary>
    public int? SmoothnessLevel { get; init => field = value is { } v ? Guard.InRange(v, 0, 7, "(level)", nameof(SmoothnessLevel)) : null; }

    /// <summary>The words of the file for the surface, as read; may be empty.</summary>
    public string SurfaceTag { get; init => field = Guard.NotNull(value, nameof(SurfaceTag)); } = "";

    internal double FromM => _fromM;

    internal double ToM => _toM;

    internal RouteSection Moved(double fromM, double toM)
        => new(Length.FromMeters(fromM), Length.FromMeters(toM))
        {
            Surface = Surface,
            Difficulty = Difficulty,
            UphillLevel = UphillLevel,
            AgencyLevel = AgencyLevel,
            HikingLevel = HikingLevel,
            SmoothnessLevel = SmoothnessLevel,
            SurfaceTag = SurfaceTag,
        };

    internal bool SaysTheSame(RouteSection other) => Moved(0, 0) == other.Moved(0, 0);
}
