using SoloRide.Internal;

namespace SoloRide.Planning;

/// <summary>Weather at any place and time of the ride, with named stand-ins where the forecast is silent.</summary>
internal sealed class WeatherAlong
{
    [Source("assumption-weather", "without a forecast")]
    public const double AssumedAirC = 20;

    [Source("assumption-weather", "without a forecast")]
    public const double AssumedHumidityPct = 50;

    [Source("assumption-weather", "without a forecast")]
    public const double AssumedWindMps = 1;

    [Source("assumption-weather", "clear sky: in heat the safe side")]
    public const double AssumedCloudPct = 0;

    // Forecast error of temperature: 1.25 times a mean absolute error of about 1.25 K on the first day, doubled by the sixth.
    [Source("forecast-error", "mean absolute error 2 to 2.5 F next day, about doubled by day five to six, published rule UN2")]
    private const double FirstDaySigmaK = 1.25 * 1.25;

    [Source("forecast-error", "growth a day")]
    private const double SigmaPerDayK = FirstDaySigmaK / 5;

    [Source("assumption-weather", "spread without a forecast")]
    private const double UnknownSigmaK = 6;

    [Source("assumption-cloud-error", "standard deviation of a first day's cloud forecast")]
    private const double FirstDayCloudSigma = 0.25;

    [Source("assumption-cloud-error", "without a forecast")]
    private const double UnknownCloudSigma = 0.4;

    [Source("wind-error", "root mean square error of wind speed at stations, first day")]
    private const double FirstDayWindSigmaMps = 2;

    private const double LastDay = 11;

    private readonly Forecast? _forecast;
    private readonly DateTimeOffset _issued;
    private readonly DateTimeOffset _from;
    private readonly DateTimeOffset _to;

    public WeatherAlong(RideRequest request)
    {
        _forecast = request.Weather;
        if (_forecast is { } f)
        {
            _from = f.Places.Min(p => p.Hours[0].Time);
            _to = f.Places.Max(p => p.Hours[^1].Time);
            DateTimeOffset issued = f.Places.Select(p => p.Issued).Min() ?? request.PreparedAt ?? request.Start;
            _issued = issued;
        }

        TemperatureSigmaK = TemperatureSigmaAtK(request.Start);
    }

    /// <summary>Standard deviation of the air temperature's error at an instant [K]: it grows with the age of the forecast, up to the tenth day.</summary>
    public double TemperatureSigmaAtK(DateTimeOffset instant)
        => _forecast is null ? UnknownSigmaK : FirstDaySigmaK + (SigmaPerDayK * Math.Clamp((instant - _issued).TotalDays - 1, 0, LastDay - 1));

    /// <summary>Standard deviation of the cloud's error at an instant [share of 1], growing alike.</summary>
    public double CloudSigmaAt(DateTimeOffset instant)
        => _forecast is null ? UnknownCloudSigma : Math.Min(UnknownCloudSigma, FirstDayCloudSigma * TemperatureSigmaAtK(instant) / FirstDaySigmaK);

    /// <summary>Standard deviation of the error of the wind at the rider along its forecast direction [m/s], growing alike; NaN without a forecast.</summary>
    public double WindSigmaAtMps(DateTimeOffset instant)
        => _forecast is null ? double.NaN : FirstDayWindSigmaMps * _forecast.Options.WindShelterFactor * TemperatureSigmaAtK(instant) / FirstDaySigmaK;

    /// <summary>Weather with the wind so many standard deviations stronger than forecast; past calm it turns round. Unknown wind or direction stays as it is.</summary>
    public Weather Windier(Weather weather, DateTimeOffset instant, double deviations)
    {
        double sigma = WindSigmaAtMps(instant);
        if (double.IsNaN(sigma) || double.IsNaN(weather.WindMps) || double.IsNaN(weather.WindFromDeg))
        {
            return weather;
        }

        double along = weather.WindMps + (deviations * sigma);
        return weather with
        {
            WindMps = Math.Abs(along),
            WindFromDeg = along >= 0 ? weather.WindFromDeg : weather.WindFromDeg < 180 ? weather.WindFromDeg + 180 : weather.WindFromDeg - 180,
            GustMps = double.NaN,
        };
    }

    /// <summary>Standard deviation with a forecast of the first day [K]: what knowing the weather would leave.</summary>
    public static double BestTemperatureSigmaK => FirstDaySigmaK;

    public bool HasForecast => _forecast is not null;

    /// <summary>Standard deviation of the air temperature's error at the start [K].</summary>
    public double TemperatureSigmaK { get; }

    public bool Covers(DateTimeOffset from, DateTimeOffset to) => _forecast is not null && from >= _from && to <= _to;

    /// <summary>Weather as forecast; parts that nobody stated are NaN.</summary>
    public Weather Known(DateTimeOffset instant, GeoPoint place) => _forecast?.At(instant, place).Weather ?? Weather.Unknown;

    /// <summary>Weather with every gap filled: the nearest covered hour, then the named stand-ins.</summary>
    public Weather Filled(DateTimeOffset instant, GeoPoint place)
    {
        Weather w = Weather.Unknown;
        if (_forecast is not null)
        {
            DateTimeOffset t = instant < _from ? _from : instant > _to ? _to : instant;
            w = _forecast.At(t, place).Weather;
        }

        return w with
        {
            AirTempC = double.IsNaN(w.AirTempC) ? AssumedAirC : w.AirTempC,
            RelHumidityPct = double.IsNaN(w.RelHumidityPct) ? AssumedHumidityPct : w.RelHumidityPct,
            WindMps = double.IsNaN(w.WindMps) ? AssumedWindMps : w.WindMps,
            CloudPct = double.IsNaN(w.CloudPct) ? AssumedCloudPct : w.CloudPct,
        };
    }
}
