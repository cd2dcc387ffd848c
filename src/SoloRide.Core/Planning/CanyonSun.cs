using SoloRide.Daylight;
using SoloRide.Internal;
using UnitsNet;

namespace SoloRide.Planning;

/// <summary>Direct sun between two walls of one height: when it comes to the trail and when it leaves it.</summary>
/// <remarks>
/// The walls stand at one distance on both sides and run straight along the axis, so that in a direction at the angle a to the axis the rim stands
/// at atan(rim sin a / distance); along the axis the ground is open. Bends, side walls and higher ground behind the rim shorten the sun. Immutable.
/// </remarks>
[Entry]
public sealed record CanyonSun
{
    private const int Directions = 720;

    private readonly double _horizonDeg;

    private CanyonSun(double horizonDeg, DirectSunDay day)
    {
        _horizonDeg = horizonDeg;
        Day = day;
    }

    /// <summary>Altitude of the rim straight across: atan(rim / distance) [°].</summary>
    public double RimDeg => _horizonDeg;

    /// <summary>The day with its spells of sun.</summary>
    public DirectSunDay Day { get; }

    /// <summary>End of the last direct sun; null when the sun does not reach the trail.</summary>
    public DateTimeOffset? Ends => Day.LastSun;

    /// <summary>How long before sunset; null when there is no sun on the trail or no sunset.</summary>
    public TimeSpan? BeforeSunset => Ends is { } e && Day.Sun.Sunset.At is { } set ? set - e : null;

    /// <summary>The sun of a day at a place between walls.</summary>
    /// <param name="date">Date on the zone's clock.</param>
    /// <param name="place">Place.</param>
    /// <param name="zone">Zone.</param>
    /// <param name="axisDeg">[°, 0 to 360] Direction in which the canyon runs; either end.</param>
    /// <param name="rim">[0 to 5 km] Height of the rims above the trail.</param>
    /// <param name="distance">[above 0 to 100 km] Horizontal distance from the trail to each rim.</param>
    /// <returns>The sun.</returns>
    /// <exception cref="ArgumentOutOfRangeException">A value outside its range.</exception>
    public static CanyonSun On(DateOnly date, GeoPoint place, ZoneOffsets zone, double axisDeg, Length rim, Length distance)
    {
        Guard.NotNull(zone);
        Guard.InRange(axisDeg, 0, 360, "deg");
        double h = Guard.InRange(rim.Meters, 0, 5000, "m", nameof(rim)), d = Guard.InRange(distance.Meters, 1e-3, 100_000, "m", nameof(distance));
        var altitudes = new double[Directions];
        for (int i = 0; i < Directions; i++)
        {
            double across = Math.Abs(Math.Sin(((i * 360.0 / Directions) - axisDeg) * Math.PI / 180));
            altitudes[i] = Math.Atan(h * across / d) * 180 / Math.PI;
        }

        return new CanyonSun(Math.Atan(h / d) * 180 / Math.PI, DirectSunDay.On(date, place, zone, HorizonProfile.FromAngles(altitudes, place)));
    }

    /// <summary>The end of the sun as a clock of a plan.</summary>
    /// <param name="from">Where the canyon begins on the route.</param>
    /// <param name="to">Where it ends.</param>
    /// <returns>The clock; null when the sun does not reach the trail, so that there is no time to keep.</returns>
    public Deadline? ToDeadline(Length from, Length to) => Ends is { } e ? new Deadline(DeadlineKind.Shade, "direct sun in the canyon", from, to, e) : null;
}
