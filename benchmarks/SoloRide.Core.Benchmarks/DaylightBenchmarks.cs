using BenchmarkDotNet.Attributes;
using SoloRide.Daylight;

namespace SoloRide.Benchmarks;

/// <summary>
/// Sun at table speed. The baseline is the same algorithm as a scalar program writes it: a loop of Math.Cos over the printed terms, one position.
/// A million sines beside it tell the machine.
/// </summary>
[MemoryDiagnoser]
public class DaylightBenchmarks
{
    private const int Batch = 8760;
    private const int YearDays = 365;
    private static readonly GeoPoint Place = new(46.5, 11.3, 1200);
    private static readonly ZoneOffsets Zone = new("made", TimeSpan.FromHours(1),
    [
        new ZoneTransition(new DateTimeOffset(2027, 3, 28, 1, 0, 0, TimeSpan.Zero), TimeSpan.FromHours(2)),
        new ZoneTransition(new DateTimeOffset(2027, 10, 31, 1, 0, 0, TimeSpan.Zero), TimeSpan.FromHours(1)),
    ]);

    private readonly DateTimeOffset[] _hours = new DateTimeOffset[Batch];
    private readonly SolarPosition[] _positions = new SolarPosition[Batch];
    private readonly SunTimes[] _year = new SunTimes[YearDays];
    private readonly SunTimes[] _day = new SunTimes[1];
    private readonly double[] _days = new double[Batch], _az = new double[Batch], _alt = new double[Batch], _dist = new double[Batch];
    private readonly LightPhase[] _phases = new LightPhase[Batch];
    private readonly GeoPoint[] _places = new GeoPoint[Batch];
    private ObserverFrame _observer;
    private long _start, _end;
    private double _sum;
    private int _turn;

    [GlobalSetup]
    public void Setup()
    {
        var t = new DateTimeOffset(2027, 1, 1, 0, 0, 0, TimeSpan.Zero);
        for (int i = 0; i < Batch; i++)
        {
            _hours[i] = t.AddHours(i);
            _days[i] = TimeScaleKernel.Days(_hours[i].UtcTicks);
            _places[i] = Place;
        }

        _observer = SolarPosition.Observer(Place);
        _start = new DateTimeOffset(2027, 6, 14, 0, 0, 0, TimeSpan.FromHours(2)).UtcTicks;
        _end = _start + TimeSpan.TicksPerDay;
    }

    [Benchmark(Baseline = true)]
    public double PositionByPlainLoops() => _sum += PlainLoops(_days[_turn++ % Batch] / 365250);

    [Benchmark]
    public double OneColdPosition() => _sum += SolarPosition.At(_hours[_turn++ % Batch], Place).AltitudeDeg;

    [Benchmark]
    public double OneColdDay()
    {
        long shift = _turn++ % 300 * TimeSpan.TicksPerDay;
        SunDayKernel.Cold(_start + shift, _end + shift, _observer, DaylightOptions.Default, out DayEvents e);
        return _sum += e.Down[0];
    }

    [Benchmark(OperationsPerInvoke = 1)]
    public double OneColdDayPublicTable()
    {
        SolarDay.Table(new DateOnly(2027, 6, 14), Place, Zone, _day);
        return _sum += _day[0].Sunset!.Value.Ticks;
    }

    [Benchmark(OperationsPerInvoke = YearDays)]
    public void YearTablePerDay() => SolarDay.Table(new DateOnly(2027, 1, 1), Place, Zone, _year);

    [Benchmark(OperationsPerInvoke = Batch)]
    public void HourlyPositionsOverAYear() => SolarPosition.At(_hours, Place, _positions);

    [Benchmark(OperationsPerInvoke = Batch)]
    public void HourlyPositionsOverAYearKernel()
    {
        var track = new SunTrack(DaylightOptions.Default);
        SunBatchKernel.Many(_days, _observer, ref track, _az, _alt, _dist);
    }

    [Benchmark(OperationsPerInvoke = Batch)]
    public void LightPhasesAlongARoute() => SkyLight.Phases(_hours, _places, _phases);

    [Benchmark]
    public double OneMoon() => _sum += MoonPosition.At(_hours[_turn++ % Batch], Place).AltitudeDeg;

    [Benchmark]
    public double MillionSines()
    {
        double s = 0;
        for (int i = 0; i < 1_000_000; i++)
        {
            s += Math.Sin(i * 0.001);
        }

        return _sum += s;
    }

    private static double PlainLoops(double jme)
    {
        double sum = 0;
        foreach (ReadOnlySpan<double> terms in (Terms)default)
        {
            for (int i = 0; i < terms.Length; i += 3)
            {
                sum += terms[i] * Math.Cos(terms[i + 1] + (terms[i + 2] * jme));
            }
        }

        ReadOnlySpan<double> y = SunTerms.NutationArguments, c = SunTerms.NutationCoefficients;
        for (int i = 0; i < 63; i++)
        {
            double x = (y[5 * i] * 1.1) + (y[(5 * i) + 1] * jme) + (y[(5 * i) + 2] * 2.2) + (y[(5 * i) + 3] * 0.3) + (y[(5 * i) + 4] * jme);
            sum += ((c[4 * i] + (c[(4 * i) + 1] * jme)) * Math.Sin(x)) + ((c[(4 * i) + 2] + (c[(4 * i) + 3] * jme)) * Math.Cos(x));
        }

        return sum;
    }

    private readonly struct Terms
    {
        public Enumerator GetEnumerator() => default;

        public struct Enumerator
        {
            private int _i;

            public readonly ReadOnlySpan<double> Current => _i switch
            {
                1 => SunTerms.L0, 2 => SunTerms.L1, 3 => SunTerms.L2, 4 => SunTerms.L3, 5 => SunTerms.L4, 6 => SunTerms.L5, 7 => SunTerms.B0, 8 => SunTerms.B1,
                9 => SunTerms.R0, 10 => SunTerms.R1, 11 => SunTerms.R2, 12 => SunTerms.R3, _ => SunTerms.R4,
            };

            public bool MoveNext() => ++_i <= 13;
        }
    }
}

/// <summary>The skyline of 720 azimuths to 30 km on a 30 m grid with bilinear heights; the baseline is a scan of the same rays every 30 m.</summary>
[MemoryDiagnoser]
public class DaylightHorizonBenchmarks
{
    private readonly Grid _grid = new();
    private readonly GeoPoint _place = new(46.5, 11.3);
    private readonly double[] _even = [.. Enumerable.Range(1, 1000).Select(i => i * 30.0)];

    private readonly double[] _skyline = new double[720];

    [Benchmark]
    public double Skyline720()
    {
        HorizonProfile.Fill(_place, _grid, _skyline);
        return _skyline[0];
    }

    [Benchmark]
    public double Skyline720AsProfile() => HorizonProfile.Of(_place, _grid).AltitudesDeg[0];

    [Benchmark(Baseline = true)]
    public double EvenScan30M()
    {
        double sum = 0;
        int unknown = 0;
        for (int i = 0; i < 720; i++)
        {
            sum += HorizonKernel.Tangent(_grid, 46.5, 11.3, 1501.6, i * (2 * Math.PI / 720), _even, 0.13, ref unknown);
        }

        return sum;
    }

    private sealed class Grid : ITerrainHeights
    {
        private const int N = 2200;
        private const double Lat0 = 46.5 - 0.3, Lon0 = 11.3 - 0.43, DLat = 0.6 / (N - 1), DLon = 0.86 / (N - 1);
        private readonly float[] _z = new float[N * N];

        public Grid()
        {
            for (int i = 0; i < N; i++)
            {
                for (int j = 0; j < N; j++)
                {
                    double lat = Lat0 + (i * DLat), lon = Lon0 + (j * DLon);
                    _z[(i * N) + j] = (float)(1500 + (60 * Math.Sin(lat * 700) * Math.Cos(lon * 500)) + (500 * Math.Sin(lat * 90) * Math.Sin(lon * 70)));
                }
            }
        }

        public double HeightM(double latDeg, double lonDeg)
        {
            double y = (latDeg - Lat0) / DLat, x = (lonDeg - Lon0) / DLon;
            if (!(y >= 0 && x >= 0 && y < N - 1 && x < N - 1))
            {
                return double.NaN;
            }

            int i = (int)y, j = (int)x, at = (i * N) + j;
            double fy = y - i, fx = x - j;
            double a = _z[at] + (fx * (_z[at + 1] - _z[at])), b = _z[at + N] + (fx * (_z[at + N + 1] - _z[at + N]));
            return a + (fy * (b - a));
        }

        public void HeightsM(ReadOnlySpan<double> latDeg, ReadOnlySpan<double> lonDeg, Span<double> heightsM)
        {
            for (int i = 0; i < heightsM.Length; i++)
            {
                heightsM[i] = HeightM(latDeg[i], lonDeg[i]);
            }
        }
    }
}
