using System.Runtime.CompilerServices;
using System.Runtime.InteropServices;
using System.Runtime.Intrinsics;
using SoloRide.Internal;

namespace SoloRide.Daylight;

/// <summary>Intermediate values of the solar position algorithm, as it prints them.</summary>
/// <param name="L">Heliocentric longitude [rad], not reduced.</param>
/// <param name="B">Heliocentric latitude [rad].</param>
/// <param name="R">Distance [au].</param>
/// <param name="DeltaPsi">Nutation in longitude [rad].</param>
/// <param name="DeltaEps">Nutation in obliquity [rad].</param>
/// <param name="Eps">True obliquity [rad].</param>
/// <param name="Lambda">Apparent longitude [rad].</param>
/// <param name="Nu0">Mean sidereal time at Greenwich [rad], 0 to 2 pi.</param>
/// <param name="EquationOfEquinoxes">Nutation of the equinox along the equator [rad].</param>
/// <param name="X">Apparent direction, toward the equinox.</param>
/// <param name="Y">Apparent direction, in the equator 90 degrees east of the equinox.</param>
/// <param name="SinDelta">Apparent direction, toward the pole: sine of the declination.</param>
internal readonly record struct SunState(
    double L, double B, double R, double DeltaPsi, double DeltaEps, double Eps, double Lambda, double Nu0, double EquationOfEquinoxes, double X, double Y, double SinDelta)
{
    /// <summary>Apparent right ascension [rad], -pi to pi.</summary>
    public double Alpha => Math.Atan2(Y, X);

    /// <summary>Cosine of the apparent declination.</summary>
    public double CosDelta => Math.Sqrt((X * X) + (Y * Y));
}

/// <summary>Geocentric apparent position of the Sun by the series of Reda and Andreas; times are days from 2000-01-01 12 h.</summary>
internal static class SunSeriesKernel
{
    public const double DaysPerCentury = 36525;
    public const double DaysPerMillennium = 365250;
    internal const double Arcsec = Math.PI / 180 / 3600;
    internal const double E8 = 1e-8;

    // Groups of one power of time: longitude 0 to 5, latitude 0 and 1, distance 0 to 4.
    internal const int LongitudeGroups = 6, LatitudeGroups = 2, DistanceGroups = 5;
    internal const int SeriesDoubles = 12, NutationDoubles = 32;
    private const double Deg = Math.PI / 180;

    private static readonly double[][] Groups =
    [
        Packed(SunTerms.L0), Packed(SunTerms.L1), Packed(SunTerms.L2), Packed(SunTerms.L3), Packed(SunTerms.L4), Packed(SunTerms.L5),
        Packed(SunTerms.B0), Packed(SunTerms.B1),
        Packed(SunTerms.R0), Packed(SunTerms.R1), Packed(SunTerms.R2), Packed(SunTerms.R3), Packed(SunTerms.R4),
    ];

    // Elongation, anomalies of Sun and Moon, argument of latitude, node [deg]: powers 0 to 3 of the century.
    [Source("reda-andreas-2008", "equations 15 to 19")]
    private static readonly double[] ArgumentPowers =
    [
        297.85036, 445267.111480, -0.0019142, 1.0 / 189474, 357.52772, 35999.050340, -0.0001603, -1.0 / 300000, 134.96298, 477198.867398, 0.0086972, 1.0 / 56250,
        93.27191, 483202.017538, -0.0036825, 1.0 / 327270, 125.04452, -1934.136261, 0.0020708, 1.0 / 450000,
    ];

    /// <summary>All terms in blocks of four: amplitudes [1e-8], phases [turns], rates [turns per millennium].</summary>
    internal static readonly double[] SeriesTerms = [.. Groups.SelectMany(g => g)];

    /// <summary>First block of each group, and the number of blocks at the end.</summary>
    internal static readonly int[] GroupStarts = Starts();

    /// <summary>Nutation in blocks of four: argument [turns] by powers 0 to 3 of the century, then the four coefficients. Terms without obliquity stand last.</summary>
    internal static readonly double[] NutationTerms = NutationBlocks(out NutationBoth);

    /// <summary>Blocks of nutation that move both longitude and obliquity.</summary>
    internal static readonly int NutationBoth;

    /// <summary>All of the algorithm up to right ascension and declination.</summary>
    /// <param name="ttDays">[d] Terrestrial time from 2000-01-01 12 h TT.</param>
    /// <param name="ut1Days">[d] UT1 from 2000-01-01 12 h UT1.</param>
    /// <param name="state">Receives the values.</param>
    [SkipLocalsInit]
    [Source("reda-andreas-2008", "3.2 to 3.10")]
    public static void Evaluate(double ttDays, double ut1Days, out SunState state)
    {
        double jce = ttDays / DaysPerCentury;
        double jme = ttDays / DaysPerMillennium;

        Sum(jme, out double l, out double b, out double r);
        Nutation(jce, out double deltaPsi, out double deltaEps);
        double eps = (MeanObliquityArcsec(jme) * Arcsec) + deltaEps;
        double theta = l + Math.PI;
        double beta = -b;
        double lambda = theta + deltaPsi + (AberrationArcsec / r * Arcsec);
        double nu0 = MeanSiderealRad(ut1Days);

        (double sinLambda, double cosLambda) = Math.SinCos(lambda - (2 * Math.PI * Math.Round(lambda / (2 * Math.PI))));
        (double sinEps, double cosEps) = Math.SinCos(eps);

        // beta stays below 1.3 arcsec: its sine and tangent are beta to 1e-16.
        double cosBeta = 1 - (0.5 * beta * beta);
        state = new SunState(
            l, b, r, deltaPsi, deltaEps, eps, lambda, nu0, deltaPsi * cosEps,
            cosBeta * cosLambda, (cosBeta * sinLambda * cosEps) - (beta * sinEps), (beta * cosEps) + (cosBeta * sinEps * sinLambda));
    }

    /// <summary>Constant of the aberration step [arcsec au].</summary>
    [Source("reda-andreas-2008", "equation 26")]
    public const double AberrationArcsec = -20.4898;

    /// <summary>Mean sidereal time at Greenwich [rad], 0 to 2 pi.</summary>
    [Source("reda-andreas-2008", "equation 28")]
    public static double MeanSiderealRad(double ut1Days)
    {
        double jc = ut1Days / DaysPerCentury;
        double whole = Math.Floor(ut1Days);
        double turns = (280.46061837 / 360) + (ut1Days - whole) + (ut1Days * (0.98564736629 / 360)) + (jc * jc * (0.000387933 - (jc / 38710000)) / 360);
        return (turns - Math.Floor(turns)) * 2 * Math.PI;
    }

    /// <summary>Rate of the mean sidereal angle [rad per UT1 day].</summary>
    [Source("reda-andreas-2008", "equation 28")]
    public const double SiderealRadPerDay = 360.98564736629 * Deg;

    /// <summary>Mean obliquity of the ecliptic [arcsec].</summary>
    [Source("reda-andreas-2008", "equation 24")]
    public static double MeanObliquityArcsec(double jme)
    {
        double u = jme / 10;
        return 84381.448 + (u * (-4680.93 + (u * (-1.55 + (u * (1999.25 + (u * (-51.38 + (u * (-249.67 + (u * (-39.05 + (u * (7.12 + (u * (27.87 + (u * (5.79 + (u * 2.45)))))))))))))))))));
    }

    /// <summary>The five arguments X0 to X4 [deg], not reduced.</summary>
    public static void NutationArguments(double jce, Span<double> xDeg)
    {
        for (int j = 0; j < 5; j++)
        {
            ReadOnlySpan<double> x = ArgumentPowers.AsSpan(4 * j, 4);
            xDeg[j] = x[0] + (jce * (x[1] + (jce * (x[2] + (jce * x[3])))));
        }
    }

    /// <summary>Nutation in longitude and obliquity [rad].</summary>
    [Source("reda-andreas-2008", "3.4")]
    public static void Nutation(double jce, out double deltaPsiRad, out double deltaEpsRad)
    {
        Vector256<double> t = Vector256.Create(jce);
        Vector256<double> psi = Vector256<double>.Zero, obl = Vector256<double>.Zero, more = Vector256<double>.Zero;
        ref double p = ref MemoryMarshal.GetArrayDataReference(NutationTerms);
        nuint i = 0, both = (nuint)(NutationBoth * NutationDoubles), end = (nuint)NutationTerms.Length;
        for (; i < both; i += NutationDoubles)
        {
            TurnTrig.SinCosTurns(NutationArgument(ref p, i, t), out Vector256<double> sin, out Vector256<double> cos);
            psi = TurnTrig.Fma(Amplitude(ref p, i + 16, t), sin, psi);
            obl = TurnTrig.Fma(Amplitude(ref p, i + 24, t), cos, obl);
        }

        for (; i < end; i += NutationDoubles)
        {
            more = TurnTrig.Fma(Amplitude(ref p, i + 16, t), TurnTrig.SinTurns(NutationArgument(ref p, i, t)), more);
        }

        deltaPsiRad = Lanes(psi + more) * (1e-4 * Arcsec);
        deltaEpsRad = Lanes(obl) * (1e-4 * Arcsec);
    }

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    internal static Vector256<double> NutationArgument(ref double p, nuint i, Vector256<double> t)
        => TurnTrig.Fma(TurnTrig.Fma(TurnTrig.Fma(Vector256.LoadUnsafe(ref p, i + 12), t, Vector256.LoadUnsafe(ref p, i + 8)), t, Vector256.LoadUnsafe(ref p, i + 4)), t, Vector256.LoadUnsafe(ref p, i));

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    internal static Vector256<double> Amplitude(ref double p, nuint i, Vector256<double> t)
        => TurnTrig.Fma(Vector256.LoadUnsafe(ref p, i + 4), t, Vector256.LoadUnsafe(ref p, i));

    /// <summary>Argument of a block of the series [turns].</summary>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    internal static Vector256<double> SeriesArgument(ref double p, nuint i, Vector256<double> t)
        => TurnTrig.Fma(Vector256.LoadUnsafe(ref p, i + 8), t, Vector256.LoadUnsafe(ref p, i + 4));

    /// <summary>The constants that lead the printed lists of longitude [1e-8 rad].</summary>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    internal static double LeadingLongitude(double jme) => SunTerms.L0[0] + (jme * (SunTerms.L1[0] + (jme * SunTerms.L2[0])));

    /// <summary>Heliocentric longitude and latitude [rad] and distance [au].</summary>
    private static void Sum(double jme, out double l, out double b, out double r)
    {
        Vector256<double> t = Vector256.Create(jme);
        nuint i = 0;
        l = E8 * (LeadingLongitude(jme) + Lanes(Powers(ref i, 0, LongitudeGroups, t)));
        b = E8 * Lanes(Powers(ref i, LongitudeGroups, LatitudeGroups, t));
        r = E8 * (SunTerms.R0[0] + Lanes(Powers(ref i, LongitudeGroups + LatitudeGroups, DistanceGroups, t)));
    }

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private static Vector256<double> Powers(ref nuint i, int first, int count, Vector256<double> t)
    {
        ref double p = ref MemoryMarshal.GetArrayDataReference(SeriesTerms);
        Vector256<double> sum = Vector256<double>.Zero, power = Vector256<double>.One;
        for (int g = first; g < first + count; g++)
        {
            nuint end = (nuint)GroupStarts[g + 1] * SeriesDoubles;
            Vector256<double> a = Vector256<double>.Zero, b = Vector256<double>.Zero;
            for (; i + (2 * SeriesDoubles) <= end; i += 2 * SeriesDoubles)
            {
                a = TurnTrig.Fma(Vector256.LoadUnsafe(ref p, i), TurnTrig.CosTurns(SeriesArgument(ref p, i, t)), a);
                b = TurnTrig.Fma(Vector256.LoadUnsafe(ref p, i + SeriesDoubles), TurnTrig.CosTurns(SeriesArgument(ref p, i + SeriesDoubles, t)), b);
            }

            if (i < end)
            {
                a = TurnTrig.Fma(Vector256.LoadUnsafe(ref p, i), TurnTrig.CosTurns(SeriesArgument(ref p, i, t)), a);
                i = end;
            }

            sum = TurnTrig.Fma(power, a + b, sum);
            power *= t;
        }

        return sum;
    }

    // A fixed order, so that the sum is the same on any machine.
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    internal static double Lanes(Vector256<double> v) => (v[0] + v[2]) + (v[1] + v[3]);

    private static int[] Starts()
    {
        int[] starts = new int[Groups.Length + 1];
        for (int g = 0; g < Groups.Length; g++)
        {
            starts[g + 1] = starts[g] + (Groups[g].Length / SeriesDoubles);
        }

        return starts;
    }

    private static double[] NutationBlocks(out int both)
    {
        ReadOnlySpan<double> y = SunTerms.NutationArguments, c = SunTerms.NutationCoefficients;
        int terms = y.Length / 5;
        var withObliquity = new List<int>(terms);
        var without = new List<int>(terms);
        for (int i = 0; i < terms; i++)
        {
            (c[(4 * i) + 2] == 0 && c[(4 * i) + 3] == 0 ? without : withObliquity).Add(i);
        }

        both = (withObliquity.Count + 3) / 4;
        int blocks = (terms + 3) / 4;
        int[] order = [.. withObliquity, .. without];
        var packed = new double[blocks * NutationDoubles];
        for (int n = 0; n < terms; n++)
        {
            int i = order[n], at = (n / 4 * NutationDoubles) + (n % 4);
            for (int power = 0; power < 4; power++)
            {
                double sum = 0;
                for (int j = 0; j < 5; j++)
                {
                    sum += y[(5 * i) + j] * ArgumentPowers[(4 * j) + power];
                }

                sum /= 360;
                packed[at + (4 * power)] = power == 0 ? sum - Math.Floor(sum) : sum;
                packed[at + 16 + (4 * power)] = c[(4 * i) + power];
            }
        }

        return packed;
    }

    // One power of time, padded to blocks of four.
    private static double[] Packed(ReadOnlySpan<double> printed)
    {
        var terms = new List<(double A, double B, double C)>();
        for (int i = 0; i < printed.Length; i += 3)
        {
            // The constants of L0, L1, L2 and R0 (B = C = 0 at the head of the list) are added on their own, to full precision.
            if (i > 0 || printed[1] != 0 || printed[2] != 0)
            {
                terms.Add((printed[i], printed[i + 1] / (2 * Math.PI), printed[i + 2] / (2 * Math.PI)));
            }
        }

        var packed = new double[(terms.Count + 3) / 4 * SeriesDoubles];
        for (int i = 0; i < terms.Count; i++)
        {
            int at = (i / 4 * SeriesDoubles) + (i % 4);
            packed[at] = terms[i].A;
            packed[at + 4] = terms[i].B;
            packed[at + 8] = terms[i].C;
        }

        return packed;
    }
}
