using SoloRide.Daylight;
using SoloRide.Exposure;
using SoloRide.Internal;
using UnitsNet;

namespace SoloRide.Planning;

/// <summary>When it is cool enough to work hard: the spans in which the heat category stays below a limit.</summary>
/// <remarks>
/// A category holds from its hour to the next one; the last one holds for one hour. Categories are those of the army work and rest table
/// (see <see cref="HeatCategory"/>). Staying below a category does not promise safety: people differ, and sun, rock and lack of wind add to it. Immutable.
/// </remarks>
[Entry(NoOutsideCheck = "categories are checked in exposure; here they are only cut into spans")]
public sealed record HeatWindow
{
    private HeatWindow(HeatHour[] hours, HeatCategory limit)
    {
        Hours = hours;
        Limit = limit;
        var spans = new List<(DateTimeOffset From, DateTimeOffset To)>();
        for (int i = 0; i < hours.Length; i++)
        {
            if (hours[i].Category >= limit)
            {
                continue;
            }

            DateTimeOffset end = i + 1 < hours.Length ? hours[i + 1].From : hours[i].From.AddHours(1);
            if (spans.Count > 0 && spans[^1].To == hours[i].From)
            {
                spans[^1] = (spans[^1].From, end);
            }
            else
            {
                spans.Add((hours[i].From, end));
            }
        }

        Spans = spans;
    }

    /// <summary>The categories that it was made from.</summary>
    public IReadOnlyList<HeatHour> Hours { get; }

    /// <summary>The category that must not be reached.</summary>
    public HeatCategory Limit { get; }

    /// <summary>Spans below the limit, in order; empty when there is none.</summary>
    public IReadOnlyList<(DateTimeOffset From, DateTimeOffset To)> Spans { get; }

    /// <summary>Spans of a series that the caller states, such as a public heat service gives.</summary>
    /// <param name="hours">Categories in order of time, at least one.</param>
    /// <param name="limit">The category that must not be reached; three unless stated.</param>
    /// <returns>The spans.</returns>
    /// <exception cref="ArgumentException">No hours, hours out of order, or an unknown category.</exception>
    public static HeatWindow Of(IReadOnlyList<HeatHour> hours, HeatCategory limit = HeatCategory.Three)
    {
        Guard.Defined(limit);
        if (Guard.NotNull(hours).Count == 0)
        {
            throw new ArgumentException("At least one hour with a category is needed.", nameof(hours));
        }

        for (int i = 0; i < hours.Count; i++)
        {
            Guard.Defined(hours[i].Category, nameof(hours));
            if (i > 0 && hours[i].From <= hours[i - 1].From)
            {
                throw new ArgumentException($"Hour {i + 1} ({Text.Clock(hours[i].From)}) does not lie after the one before ({Text.Clock(hours[i - 1].From)}).", nameof(hours));
            }
        }

        return new HeatWindow([.. hours], limit);
    }

    /// <summary>Spans from a forecast, hour by hour, in the sun at one place, in the wind as the forecast has it at the rider.</summary>
    /// <param name="forecast">Forecast with air temperature and humidity.</param>
    /// <param name="place">Where.</param>
    /// <param name="from">First hour.</param>
    /// <param name="hours">[1 to 240] Number of hours.</param>
    /// <param name="limit">The category that must not be reached; three unless stated.</param>
    /// <returns>The spans; hours for which temperature, humidity or wind is not forecast count as reaching the limit.</returns>
    /// <exception cref="ArgumentException">Bad count of hours, or an unknown category.</exception>
    public static HeatWindow FromForecast(Forecast forecast, GeoPoint place, DateTimeOffset from, int hours, HeatCategory limit = HeatCategory.Three)
    {
        Guard.NotNull(forecast);
        Guard.Defined(limit);
        Guard.InRange(hours, 1, 240, "hours", nameof(hours));
        var series = new List<HeatHour>();
        for (int h = 0; h < hours; h++)
        {
            DateTimeOffset t = from.AddHours(h);
            series.Add(new HeatHour(t, Category(forecast, place, t) ?? HeatCategory.Five));
        }

        return new HeatWindow([.. series], limit);
    }

    /// <summary>When the span that holds an instant ends.</summary>
    /// <param name="instant">Instant, such as the start.</param>
    /// <returns>Its end; the instant itself when it lies in no span.</returns>
    public DateTimeOffset EndFrom(DateTimeOffset instant)
    {
        foreach ((DateTimeOffset from, DateTimeOffset to) in Spans)
        {
            if (instant >= from && instant < to)
            {
                return to;
            }
        }

        return instant;
    }

    /// <summary>The span that holds the start, as a clock of a plan.</summary>
    /// <param name="start">Start of the ride.</param>
    /// <param name="from">Where the stretch begins that must be left before the heat.</param>
    /// <param name="to">Where it ends: shade, water, a way out.</param>
    /// <returns>The clock.</returns>
    /// <exception cref="ArgumentException">The stretch runs backward.</exception>
    public Deadline ToDeadline(DateTimeOffset start, Length from, Length to)
        => new(DeadlineKind.Heat, $"heat category {(int)Limit}", from, to, EndFrom(start));

    private static HeatCategory? Category(Forecast forecast, GeoPoint place, DateTimeOffset t)
    {
        WeatherAtRider at = forecast.At(t, place);
        Weather w = at.Weather;
        if (!at.Covered || double.IsNaN(w.AirTempC) || double.IsNaN(w.RelHumidityPct) || double.IsNaN(w.WindMps))
        {
            return null;
        }

        SolarPosition sun = SolarPosition.At(t, place);
        double cloud = double.IsNaN(w.CloudPct) ? 0 : Math.Clamp(w.CloudPct / 100, 0, 1);
        return OutdoorHeat.At(new OutdoorConditions
        {
            AirTemperature = Temperature.FromDegreesCelsius(Math.Clamp(w.AirTempC, -40, 60)),
            RelHumidityPct = Math.Clamp(w.RelHumidityPct, 0, 100),
            Wind = Speed.FromMetersPerSecond(Math.Clamp(w.WindMps, 0, 30)),
            Elevation = Length.FromMeters(double.IsNaN(place.ElevationM) ? 0 : Math.Clamp(place.ElevationM, -300, 5500)),
            SunAltitudeDeg = sun.AltitudeDeg,
            GlobalIrradiance = ClearSkyIrradiance.Of(sun, place, cloud).Global,
        }).Category;
    }
}
