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
/// <param name="Alpha">Apparent right ascension [rad], -pi to pi.</param>
/// <param name="SinDelta">Sine of the apparent declination.</param>
/// <param name="CosDelta">Cosine of the apparent declination.</param>
internal readonly record struct SunState(
    double L, double B, double R, double DeltaPsi, double DeltaEps, double Eps, double Lambda, double Nu0, double Alpha, double SinDelta, double CosDelta)
{
    /// <summary>Nutation of the equinox along the equator [rad], the equation of the equinoxes.</summary>
    public double EquationOfEquinoxes => DeltaPsi * Math.Cos(Eps);
}

/// <summary>Geocentric apparent position of the Sun by the series of Reda and Andreas; times are days from 2000-01-01 12 h.</summary>
internal static class SunSeriesKernel
{
    public const double DaysPerCentury = 36525;
    public const double DaysPerMillennium = 365250;
    private const double Arcsec = Math.PI / 180 / 3600;
    private const double Deg = Math.PI / 180;
    private const double E8 = 1e-8;

    private static readonly Group[] Groups =
    [
        Group.Of(SunTerms.L0), Group.Of(SunTerms.L1), Group.Of(SunTerms.L2), Group.Of(SunTerms.L3), Group.Of(SunTerms.L4), Group.Of(SunTerms.L5),
        Group.Of(SunTerms.B0), Group.Of(SunTerms.B1),
        Group.Of(SunTerms.R0), Group.Of(SunTerms.R1), Group.Of(SunTerms.R2), Group.Of(SunTerms.R3), Group.Of(SunTerms.R4),
    ];

    private static readonly double[] GroupTerms = Group.Join(Groups);
    private static readonly double[] NutationTerms = NutationBlocks();

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

        Span<double> sums = stackalloc double[13];
        Sum(jme, sums);
        double l = E8 * (SunTerms.L0[0] + sums[0] + (jme * (SunTerms.L1[0] + sums[1] + (jme * (SunTerms.L2[0] + sums[2] + (jme * (sums[3] + (jme * (sums[4] + (jme * sums[5])))))))))); 
        double b = E8 * (sums[6] + (jme * sums[7]));
        double r = E8 * (SunTerms.R0[0] + sums[8] + (jme * (sums[9] + (jme * (sums[10] + (jme * (sums[11] + (jme * sums[12]))))))));

        Nutation(jce, out double deltaPsi, out double deltaEps);
        double eps = (MeanObliquityArcsec(jme) * Arcsec) + deltaEps;
        double theta = l + Math.PI;
        double beta = -b;
        double lambda = theta + deltaPsi + (AberrationArcsec / r * Arcsec);
        double nu0 = MeanSiderealRad(ut1Days);

        (double sinLambda, double cosLambda) = Math.SinCos(Math.IEEERemainder(lambda, 2 * Math.PI));
        (double sinEps, double cosEps) = Math.SinCos(eps);

        // beta stays below 1.3 arcsec: its sine and tangent are beta to 1e-16.
        double cosBeta = 1 - (0.5 * beta * beta);
        double x = cosBeta * cosLambda;
        double y = (cosBeta * sinLambda * cosEps) - (beta * sinEps);
        double sinDelta = (beta * cosEps) + (cosBeta * sinEps * sinLambda);
        double cosDelta = Math.Sqrt((x * x) + (y * y));
        state = new SunState(l, b, r, deltaPsi, deltaEps, eps, lambda, nu0, Math.Atan2(y, x), sinDelta, cosDelta);
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
    [Source("reda-andreas-2008", "equations 15 to 19")]
    public static void NutationArguments(double jce, Span<double> xDeg)
    {
        xDeg[0] = 297.85036 + (jce * (445267.111480 + (jce * (-0.0019142 + (jce / 189474)))));
        xDeg[1] = 357.52772 + (jce * (35999.050340 + (jce * (-0.0001603 - (jce / 300000)))));
        xDeg[2] = 134.96298 + (jce * (477198.867398 + (jce * (0.0086972 + (jce / 56250)))));
        xDeg[3] = 93.27191 + (jce * (483202.017538 + (jce * (-0.0036825 + (jce / 327270)))));
        xDeg[4] = 125.04452 + (jce * (-1934.136261 + (jce * (0.0020708 + (jce / 450000)))));
    }

    /// <summary>Nutation in longitude and obliquity [rad].</summary>
    [SkipLocalsInit]
    [Source("reda-andreas-2008", "3.4")]
    public static void Nutation(double jce, out double deltaPsiRad, out double deltaEpsRad)
    {
        Span<double> x = stackalloc double[5];
        NutationArguments(jce, x);
        Vector256<double> x0 = Turns(x[0]), x1 = Turns(x[1]), x2 = Turns(x[2]), x3 = Turns(x[3]), x4 = Turns(x[4]);
        Vector256<double> t = Vector256.Create(jce);
        Vector256<double> psi = Vector256<double>.Zero, obl = Vector256<double>.Zero;
        ref double p = ref MemoryMarshal.GetArrayDataReference(NutationTerms);
        for (nuint i = 0; i < (nuint)NutationTerms.Length; i += 36)
        {
            Vector256<double> arg = Vector256.LoadUnsafe(ref p, i) * x0;
            arg = TurnTrig.Fma(Vector256.LoadUnsafe(ref p, i + 4), x1, arg);
            arg = TurnTrig.Fma(Vector256.LoadUnsafe(ref p, i + 8), x2, arg);
            arg = TurnTrig.Fma(Vector256.LoadUnsafe(ref p, i + 12), x3, arg);
            arg = TurnTrig.Fma(Vector256.LoadUnsafe(ref p, i + 16), x4, arg);
            psi = TurnTrig.Fma(TurnTrig.Fma(Vector256.LoadUnsafe(ref p, i + 24), t, Vector256.LoadUnsafe(ref p, i + 20)), TurnTrig.SinTurns(arg), psi);
            obl = TurnTrig.Fma(TurnTrig.Fma(Vector256.LoadUnsafe(ref p, i + 32), t, Vector256.LoadUnsafe(ref p, i + 28)), TurnTrig.CosTurns(arg), obl);
        }

        deltaPsiRad = Lanes(psi) * (1e-4 * Arcsec);
        deltaEpsRad = Lanes(obl) * (1e-4 * Arcsec);

        static Vector256<double> Turns(double deg)
        {
            double turns = deg / 360;
            return Vector256.Create(turns - Math.Floor(turns));
        }
    }

    /// <summary>The thirteen sums of cosines [1e-8 rad or au], without their leading constants.</summary>
    private static void Sum(double jme, Span<double> sums)
    {
        Vector256<double> t = Vector256.Create(jme);
        ref double p = ref MemoryMarshal.GetArrayDataReference(GroupTerms);
        nuint i = 0;
        for (int g = 0; g < Groups.Length; g++)
        {
            nuint end = i + (nuint)Groups[g].Doubles;
            Vector256<double> a = Vector256<double>.Zero, b = Vector256<double>.Zero;
            for (; i + 24 <= end; i += 24)
            {
                a = TurnTrig.Fma(Vector256.LoadUnsafe(ref p, i), Cos(ref p, i, t), a);
                b = TurnTrig.Fma(Vector256.LoadUnsafe(ref p, i + 12), Cos(ref p, i + 12, t), b);
            }

            if (i < end)
            {
                a = TurnTrig.Fma(Vector256.LoadUnsafe(ref p, i), Cos(ref p, i, t), a);
                i = end;
            }

            sums[g] = Lanes(a + b);
        }

        [MethodImpl(MethodImplOptions.AggressiveInlining)]
        static Vector256<double> Cos(ref double p, nuint i, Vector256<double> t)
            => TurnTrig.CosTurns(TurnTrig.Fma(Vector256.LoadUnsafe(ref p, i + 8), t, Vector256.LoadUnsafe(ref p, i + 4)));
    }

    // A fixed order, so that the sum is the same on any machine.
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private static double Lanes(Vector256<double> v) => (v[0] + v[2]) + (v[1] + v[3]);

    private static double[] NutationBlocks()
    {
        ReadOnlySpan<double> y = SunTerms.NutationArguments, c = SunTerms.NutationCoefficients;
        int terms = y.Length / 5, blocks = (terms + 3) / 4;
        var packed = new double[blocks * 36];
        for (int i = 0; i < terms; i++)
        {
            int at = (i / 4 * 36) + (i % 4);
            for (int j = 0; j < 5; j++)
            {
                packed[at + (4 * j)] = y[(5 * i) + j];
            }

            for (int j = 0; j < 4; j++)
            {
                packed[at + 20 + (4 * j)] = c[(4 * i) + j];
            }
        }

        return packed;
    }

    /// <summary>One power of time: amplitudes, phases and rates in blocks of four, phases and rates in turns.</summary>
    private sealed record Group(double[] Packed)
    {
        public int Doubles => Packed.Length;

        public static Group Of(ReadOnlySpan<double> printed)
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

            var packed = new double[(terms.Count + 3) / 4 * 12];
            for (int i = 0; i < terms.Count; i++)
            {
                int at = (i / 4 * 12) + (i % 4);
                packed[at] = terms[i].A;
                packed[at + 4] = terms[i].B;
                packed[at + 8] = terms[i].C;
            }

            return new Group(packed);
        }

        public static double[] Join(Group[] groups) => [.. groups.SelectMany(g => g.Packed)];
    }
}
