using SoloRide.Batteries;
using UnitsNet;

namespace SoloRide.Tests.Batteries;

/// <summary>Invented devices and rides for the tests of this room.</summary>
internal static class BatteryRequests
{
    public static Device Phone(double start = 1) => new(
        "phone", DeviceKind.Phone, CellPack.LithiumIon(4000, 3.85),
        DeviceMode.Of("flight mode", ModeUse.Tracking, 0.08, 0.15, 0.3), DeviceMode.Of("searching", ModeUse.Searching, 0.3, 0.5, 0.8), DeviceMode.Of("standby", ModeUse.Standby, 0.015, 0.03, 0.05))
    {
        StartChargeFraction = start,
    };

    public static Device Messenger(double start = 1) => new(
        "messenger", DeviceKind.Messenger, CellPack.LithiumIon(1200), DeviceMode.Of("track 10 min", ModeUse.Tracking, 0.03, 0.05, 0.08))
    {
        StartChargeFraction = start,
    };

    public static Device Lamp(string name = "head lamp", double start = 1) => new(
        name, name.StartsWith("bar", StringComparison.Ordinal) ? DeviceKind.BarLamp : DeviceKind.HeadLamp, CellPack.LithiumIon(3400, 3.6),
        DeviceMode.Lit("trail", new LampOutput(400, 3000), 4), DeviceMode.Lit("full", new LampOutput(1200, 12000), 13), DeviceMode.Lit("camp", new LampOutput(60, 200), 0.6))
    {
        StartChargeFraction = start,
    };

    public static Device Navigation(double start = 1) => new(
        "navigation", DeviceKind.NavigationComputer, CellPack.LithiumIon(1200), DeviceMode.Of("map", ModeUse.Navigating, 0.25, 0.35, 0.5))
    {
        StartChargeFraction = start,
    };

    public static PowerRequest Ride(PowerBank? bank = null, double airC = 8, int samples = 500, params Device[] devices) => new()
    {
        Devices = devices.Length > 0 ? devices : [Phone(), Messenger(), Lamp(), Lamp("bar lamp"), Navigation()],
        Timeline =
        [
            new PowerInterval { Duration = TimeSpan.FromHours(6), AirTemperature = Temperature.FromDegreesCelsius(airC + 6) },
            new PowerInterval { Duration = TimeSpan.FromHours(1), AirTemperature = Temperature.FromDegreesCelsius(airC + 4) },
            new PowerInterval { Duration = TimeSpan.FromHours(3), AirTemperature = Temperature.FromDegreesCelsius(airC), IsDark = true, Messages = 2, Sky = SkyView.LightCanopy },
        ],
        UnplannedNight = [new PowerInterval { Duration = TimeSpan.FromHours(10), AirTemperature = Temperature.FromDegreesCelsius(airC - 6), IsDark = true }],
        Bank = bank,
        Samples = samples,
    };
}
