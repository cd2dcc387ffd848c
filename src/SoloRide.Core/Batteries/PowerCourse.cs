namespace SoloRide.Batteries;

/// <summary>The stretches of a plan as plain arrays, as <see cref="PowerKernel"/> reads them.</summary>
internal sealed class PowerCourse
{
    private PowerCourse(double[] hours, double[] airC, double[] windShare, sbyte[] mode, double[] extraW, double[] portW, int rideStretches)
    {
        Hours = hours;
        AirC = airC;
        WindShare = windShare;
        Mode = mode;
        ExtraW = extraW;
        PortW = portW;
        RideStretches = rideStretches;
    }

    public double[] Hours { get; }

    public double[] AirC { get; }

    public double[] WindShare { get; }

    public sbyte[] Mode { get; }

    public double[] ExtraW { get; }

    public double[] PortW { get; }

    /// <summary>How many of the stretches belong to the ride; the rest are the unplanned night.</summary>
    public int RideStretches { get; }

    public int Count => Hours.Length;

    public double RideHours
    {
        get
        {
            double h = 0;
            for (int i = 0; i < RideStretches; i++)
            {
                h += Hours[i];
            }

            return h;
        }
    }

    /// <summary>Whether a device ever hangs on the bank.</summary>
    public bool IsPlugged(int device)
    {
        int devices = Mode.Length / Count;
        for (int i = device; i < PortW.Length; i += devices)
        {
            if (PortW[i] > 0)
            {
                return true;
            }
        }

        return false;
    }

    public double TotalHours => Hours.Sum();

    /// <summary>Compiles ride and night; checks the names of devices and modes.</summary>
    public static PowerCourse Of(IReadOnlyList<Device> devices, IReadOnlyList<PowerInterval> ride, IReadOnlyList<PowerInterval> night)
    {
        int n = ride.Count + night.Count, count = devices.Count;
        double[] hours = new double[n], air = new double[n], wind = new double[n], extra = new double[n * count];
        sbyte[] mode = new sbyte[n * count];
        int messenger = -1;
        for (int d = 0; d < count && messenger < 0; d++)
        {
            messenger = devices[d].Kind == DeviceKind.Messenger ? d : -1;
        }

        for (int i = 0; i < n; i++)
        {
            bool isNight = i >= ride.Count;
            PowerInterval interval = isNight ? night[i - ride.Count] : ride[i];
            string where = isNight ? $"UnplannedNight[{i - ride.Count}]" : $"Timeline[{i}]";
            hours[i] = interval.Duration.TotalHours;
            air[i] = interval.AirC;
            wind[i] = CellKernel.WindShare(interval.WindMps);
            foreach ((string name, string modeName) in interval.Modes)
            {
                Device device = devices.FirstOrDefault(d => string.Equals(d.Name, name, StringComparison.Ordinal))
                    ?? throw new ArgumentException($"{where}.Modes names the device '{name}', which is not among the devices: {string.Join(", ", devices.Select(d => d.Name))}.", nameof(ride));
                if (modeName != "off" && device.ModeIndex(modeName) < 0)
                {
                    throw new ArgumentException($"{where}.Modes: '{name}' has no mode '{modeName}'; it has off, {string.Join(", ", device.Modes.Select(m => m.Name))}.", nameof(ride));
                }
            }

            for (int d = 0; d < count; d++)
            {
                mode[(i * count) + d] = (sbyte)(interval.Modes.TryGetValue(devices[d].Name, out string? named)
                    ? devices[d].ModeIndex(named)
                    : isNight ? NightMode(devices[d]) : devices[d].DefaultMode(interval.IsDark));
            }

            if (messenger >= 0 && interval.Messages > 0)
            {
                extra[(i * count) + messenger] = interval.Messages * MessageWh(devices[messenger], interval.Sky) / hours[i];
            }
        }

        return new PowerCourse(hours, air, wind, mode, extra, [], ride.Count);
    }

    /// <summary>The same stretches cut where devices go on or off the bank.</summary>
    public static PowerCourse Cut(PowerCourse whole, int devices, IReadOnlyList<(int Stretch, double Hours, double[]? PortW)> pieces)
    {
        int n = pieces.Count;
        double[] hours = new double[n], air = new double[n], wind = new double[n], extra = new double[n * devices], port = new double[n * devices];
        sbyte[] mode = new sbyte[n * devices];
        int ride = 0;
        for (int i = 0; i < n; i++)
        {
            (int stretch, double h, double[]? p) = pieces[i];
            hours[i] = h;
            air[i] = whole.AirC[stretch];
            wind[i] = whole.WindShare[stretch];
            Array.Copy(whole.Mode, stretch * devices, mode, i * devices, devices);
            Array.Copy(whole.ExtraW, stretch * devices, extra, i * devices, devices);
            p?.CopyTo(port, i * devices);
            ride += stretch < whole.RideStretches ? 1 : 0;
        }

        return new PowerCourse(hours, air, wind, mode, extra, port, ride);
    }

    internal static double MessageWh(Device messenger, SkyView sky)
    {
        double p = RetryKernel.AttemptProbability(sky);
        double attemptW = messenger.Modes.FirstOrDefault(m => m.Use == ModeUse.Messaging)?.TypicalW ?? BatteriesConstants.MessageAttemptW;
        double waitW = messenger.Modes[0].TypicalW;
        return RetryKernel.EnergyMwh(
            RetryKernel.ExpectedCapped(p, BatteriesConstants.MessageAttempts), attemptW, BatteriesConstants.MessageAttemptS, waitW, BatteriesConstants.MessageWaitS) / 1000;
    }

    private static int NightMode(Device device)
    {
        for (int m = 0; m < device.Modes.Count; m++)
        {
            if (device.Modes[m].Use == ModeUse.Standby)
            {
                return m;
            }
        }

        return device.IsLamp || device.Kind == DeviceKind.DriveBattery ? -1 : 0;
    }
}
