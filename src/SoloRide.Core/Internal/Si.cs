using UnitsNet;

namespace SoloRide.Internal;

/// <summary>The one place where quantities become SI doubles and back; null becomes NaN.</summary>
internal static class Si
{
    public const double ZeroCelsiusK = 273.15;

    [Source("nist-sp330", "standard acceleration of gravity")]
    public const double GravityMps2 = 9.80665;

    public static double M(Length? value) => value?.Meters ?? double.NaN;

    public static double Kg(Mass? value) => value?.Kilograms ?? double.NaN;

    // Power.Watts is decimal in UnitsNet 5.
    public static double W(Power? value) => value is { } p ? (double)p.Watts : double.NaN;

    public static double Mps(Speed? value) => value?.MetersPerSecond ?? double.NaN;

    public static double L(Volume? value) => value?.Liters ?? double.NaN;

    public static double C(Temperature? value) => value?.DegreesCelsius ?? double.NaN;

    public static Length? Length(double m) => double.IsNaN(m) ? null : UnitsNet.Length.FromMeters(m);

    public static Mass? Mass(double kg) => double.IsNaN(kg) ? null : UnitsNet.Mass.FromKilograms(kg);

    public static Power? Power(double w) => double.IsNaN(w) ? null : UnitsNet.Power.FromWatts(w);

    public static Speed? Speed(double mps) => double.IsNaN(mps) ? null : UnitsNet.Speed.FromMetersPerSecond(mps);

    public static Volume? Volume(double l) => double.IsNaN(l) ? null : UnitsNet.Volume.FromLiters(l);

    public static Temperature? Temperature(double c) => double.IsNaN(c) ? null : UnitsNet.Temperature.FromDegreesCelsius(c);
}
