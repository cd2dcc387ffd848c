using SoloRide.Internal;
using UnitsNet;

namespace SoloRide.Batteries;

/// <summary>One run of <see cref="PowerPlanner"/>.</summary>
internal sealed partial class PowerPlanning
{
    private readonly PowerRequest _request;
    private readonly CancellationToken _cancellation;
    private readonly IReadOnlyList<Device> _devices;
    private readonly PowerScenario _scenario;
    private readonly PowerCourse _course;
    private readonly IReadOnlyList<PowerInterval> _stretches;
    private readonly List<Finding> _findings = [];
    private readonly List<MessageWay> _ways;
    private readonly int _count;
    private readonly double _rideH;
    private readonly double _totalH;
    private Draws? _draws;

    public PowerPlanning(PowerRequest request, CancellationToken cancellation)
    {
        _request = request;
        _cancellation = cancellation;
        _devices = request.Devices;
        _count = _devices.Count;
        _course = PowerCourse.Of(_devices, request.Timeline, request.UnplannedNight);
        _scenario = PowerScenario.Of(_devices);
        _stretches = [.. request.Timeline, .. request.UnplannedNight];
        _rideH = _course.RideHours;
        _totalH = _course.TotalHours;
        _ways = Ways();
    }

    public PowerPlan Make()
    {
        Typical alone = RunTypical(_course, 0);
        double[] shortfall = Shortfall();
        (BankAllocation? allocation, double bankWh) = Allocate(shortfall);
        (PowerCourse course, List<TopUp> topUps) = Schedule(allocation, bankWh, alone);
        Typical with = topUps.Count > 0 ? RunTypical(course, bankWh) : alone;
        Sampled sampled = Sample(course, bankWh, topUps.Count > 0);
        var devices = new DevicePower[_count];
        for (int d = 0; d < _count; d++)
        {
            devices[d] = Result(d, with, sampled, shortfall[d]);
        }

        DeviceFindings(devices, with, allocation);
        RequestFindings();
        string? first = FirstToFail(devices);
        return new PowerPlan
        {
            Devices = devices,
            Ride = TimeSpan.FromHours(_rideH),
            Allocation = allocation,
            BankAtPort = _request.Bank is { } bank ? bank.EnergyAtPort(Temperature.FromDegreesCelsius(BankC(bank))) : null,
            TopUps = topUps,
            FirstToFail = first,
            Remedies = first is null ? [] : Remedies(devices.Single(p => p.Device.Name == first), topUps),
            IfFlat = IfFlat(),
            MessageProbability = sampled.MessageAtEnd,
            MessageAfterNightProbability = sampled.MessageAfterNight,
            DistressCallProbability = sampled.CallAtEnd,
            DistressCallAfterNightProbability = sampled.CallAfterNight,
            AnyLampLastsProbability = _devices.Any(d => d.Kind is DeviceKind.HeadLamp or DeviceKind.BarLamp) ? sampled.AnyLamp : null,
            IfLampFails = LampFailures(devices),
            EveningChecks = Evening(devices),
            IfForgotten = Forgotten(),
            LeaveOff = LeaveOff(shortfall),
            Findings = _findings,
        };
    }

    private List<MessageWay> Ways()
    {
        var ways = new List<MessageWay>(_request.Ways);
        foreach (MessageWay way in ways)
        {
            foreach (string need in way.Needs)
            {
                if (!_devices.Any(d => string.Equals(d.Name, need, StringComparison.Ordinal)))
                {
                    throw new ArgumentException($"The way '{way.Name}' needs the device '{need}', which is not among the devices: {string.Join(", ", _devices.Select(d => d.Name))}.");
                }
            }
        }

        if (ways.Count == 0)
        {
            Device? phone = _devices.FirstOrDefault(d => d.Kind == DeviceKind.Phone);
            foreach (Device messenger in _devices.Where(d => d.Kind == DeviceKind.Messenger))
            {
                if (phone is not null)
                {
                    ways.Add(new MessageWay { Name = $"free text by {messenger.Name} and {phone.Name}", Purpose = MessagePurpose.Message, Needs = [messenger.Name, phone.Name] });
                }

                ways.Add(new MessageWay { Name = $"distress call by {messenger.Name}", Purpose = MessagePurpose.DistressCall, Needs = [messenger.Name] });
            }

            if (phone is not null)
            {
                _findings.Add(new Finding(BatteriesFindingCodes.NoCoverage, FindingSeverity.Note, phone.Name, "Coverage is unknown, so the phone alone counts neither for messages nor for a distress call; state a way of reaching others where there is coverage."));
            }
        }

        if (_request.Beacon is { } beacon)
        {
            bool expired = _request.Date is { } day && beacon.BatteryExpires is { } last && last < day;
            if (!expired)
            {
                ways.Add(new MessageWay { Name = $"distress call by {beacon.Name}", Purpose = MessagePurpose.DistressCall, Needs = [], AttemptProbability = beacon.WorksProbability, Attempts = 1 });
            }
        }

        return ways;
    }

    private Typical RunTypical(PowerCourse course, double bankWh)
    {
        var typical = new Typical(course, _count);
        var state = new PowerState
        {
            BankWh = bankWh,
            StoredWh = new double[_count],
            OutageH = typical.OutageH,
            DeliveredWh = new double[_count],
            TakenWh = new double[_count],
            Works = typical.Works,
            Scratch = new double[5 * _count],
        };
        typical.OutageH.AsSpan().Fill(double.PositiveInfinity);
        for (int d = 0; d < _count; d++)
        {
            state.StoredWh[d] = _scenario.FullWh[d] * _scenario.StartFraction[d];
        }

        PowerRun run = Run(course, _scenario.FullWh, _scenario.TypicalW, 0);
        for (int n = 0; n < course.Count; n++)
        {
            state.StoredWh.CopyTo(typical.StoredWh.AsSpan(n * _count, _count));
            PowerKernel.Run(_scenario, run, n, n + 1, ref state);
        }

        state.StoredWh.CopyTo(typical.StoredWh.AsSpan(course.Count * _count, _count));
        for (int d = 0; d < _count; d++)
        {
            typical.BeyondH[d] = Beyond(course, d, typical.OutageH[d], state.StoredWh[d], _scenario.FullWh[d], _scenario.TypicalW, 0);
        }

        return typical;
    }

    private static PowerRun Run(PowerCourse course, ReadOnlySpan<double> fullWh, ReadOnlySpan<double> loadW, double airOffsetC, ReadOnlySpan<int> only = default) => new()
    {
        Hours = course.Hours,
        AirC = course.AirC,
        WindShare = course.WindShare,
        Mode = course.Mode,
        ExtraW = course.ExtraW,
        PortW = course.PortW,
        FullWh = fullWh,
        LoadW = loadW,
        AirOffsetC = airOffsetC,
        Only = only,
    };

    /// <summary>Draw on the store: what the circuits draw over the efficiency of the cell.</summary>
    private double LoadOf(PowerCourse course, int d, int n, ReadOnlySpan<double> loadW, double airOffsetC = 0)
    {
        int mode = course.Mode[(n * _count) + d];
        double w = (mode < 0 ? 0 : loadW[(d * _scenario.MaxModes) + mode]) + course.ExtraW[(n * _count) + d];
        return w > 0 ? w / ShareOf(course, d, n, airOffsetC).Efficiency : 0;
    }

    private CellShare ShareOf(PowerCourse course, int d, int n, double airOffsetC = 0)
        => _scenario.Share(d, course.Mode[(n * _count) + d], CellC(course, d, n, airOffsetC));

    private double CellC(PowerCourse course, int d, int n, double airOffsetC)
        => CellKernel.CellC(course.AirC[n] + airOffsetC, _scenario.WarmShare[d] * course.WindShare[n]);

    /// <summary>First outage, with the draw of the last stretch going on after the end.</summary>
    private double Beyond(PowerCourse course, int d, double outageH, double storedWh, double fullWh, ReadOnlySpan<double> loadsW, double airOffsetC)
    {
        if (double.IsFinite(outageH))
        {
            return outageH;
        }

        int last = course.Count - 1;
        double lastLoadW = LoadOf(course, d, last, loadsW, airOffsetC), floor = fullWh * ShareOf(course, d, last, airOffsetC).Floor;
        return lastLoadW > 0 ? _totalH + (Math.Max(0, storedWh - floor) / lastLoadW) : double.PositiveInfinity;
    }

    /// <summary>Energy missing in each cell to reach the end with the reserve, typical values.</summary>
    private double[] Shortfall()
    {
        double[] missing = new double[_count];
        for (int d = 0; d < _count; d++)
        {
            double start = _scenario.FullWh[d] * _scenario.StartFraction[d], used = 0;
            for (int n = 0; n < _course.Count; n++)
            {
                double load = LoadOf(_course, d, n, _scenario.TypicalW);
                if (load <= 0)
                {
                    continue;
                }

                used += load * _course.Hours[n];
                double available = start - (_scenario.FullWh[d] * ShareOf(_course, d, n).Floor);
                missing[d] = Math.Max(missing[d], used - (Math.Max(0, available) * (1 - _request.ReserveFraction)));
            }
        }

        return missing;
    }

    private bool CanTakeCharge(int d, int n)
    {
        Device device = _devices[d];
        if (device.TopUp == TopUpRule.Never || !_stretches[n].CanCharge || CellC(_course, d, n, 0) < BatteriesConstants.ChargeFloorC)
        {
            return false;
        }

        int mode = _course.Mode[(n * _count) + d];
        return device.TopUp != TopUpRule.OnlyWhenOff || mode < 0 || device.Modes[mode].Use is ModeUse.Off or ModeUse.Standby;
    }

    private double BankC(PowerBank bank)
    {
        double coldest = double.PositiveInfinity;
        for (int n = 0; n < _course.Count; n++)
        {
            coldest = Math.Min(coldest, CellKernel.CellC(_course.AirC[n], CellKernel.WarmShare(bank.Carried) * _course.WindShare[n]));
        }

        return Math.Clamp(coldest, -40, 60);
    }

    private (BankAllocation? Allocation, double BankWh) Allocate(double[] shortfall)
    {
        if (_request.Bank is not { } bank)
        {
            return (null, 0);
        }

        double bankWh = bank.PortWh(BankC(bank), 1, bank.ConverterEfficiencyFraction);
        double anyHours = 0;
        var claims = new List<BankClaim>();
        for (int n = 0; n < _course.Count; n++)
        {
            anyHours += _stretches[n].CanCharge ? _course.Hours[n] : 0;
        }

        for (int d = 0; d < _count; d++)
        {
            double hours = 0;
            bool cold = false;
            for (int n = 0; n < _course.Count; n++)
            {
                bool can = CanTakeCharge(d, n);
                hours += can ? _course.Hours[n] : 0;
                cold |= !can && CellC(_course, d, n, 0) < BatteriesConstants.ChargeFloorC;
            }

            if (shortfall[d] <= 0)
            {
                continue;
            }

            if (cold)
            {
                _findings.Add(new Finding(
                    BatteriesFindingCodes.ColdCharge, FindingSeverity.Warning, _devices[d].Name,
                    "Part of the time its cells are below 0 C and must not be charged: warm it against the body first, or top it up while it is warm."));
            }

            double port = Math.Min(_devices[d].IntakeW, bank.PortW);
            double most = port * _devices[d].ChargingEfficiencyFraction * hours;
            if (_devices[d].TopUp == TopUpRule.Never || most <= 0)
            {
                continue;
            }

            if (port < bank.SwitchOffW)
            {
                _findings.Add(new Finding(BatteriesFindingCodes.BankSwitchesOff, FindingSeverity.Warning, _devices[d].Name, $"It draws {Text.F(port, 2)} W, less than keeps the bank's port on: it may stop charging unseen. Not counted on."));
                continue;
            }

            claims.Add(new BankClaim(_devices[d].Name, Energy.FromWattHours(Math.Min(shortfall[d], most)), _devices[d].ChargingEfficiencyFraction, Power.FromWatts(port))
            {
                SafetyOrder = _devices[d].Order,
                WeightFactor = _devices[d].WeightFactor,
            });
        }

        // The order of the request must not matter where claims tie.
        claims.Sort((x, y) => string.CompareOrdinal(x.Name, y.Name));
        BankAllocation allocation = BankPlanner.Allocate(
            Energy.FromWattHours(bankWh), claims, TimeSpan.FromHours(Math.Max(anyHours, 1e-3)), bank.Ports > 1 ? PortSharing.AllAtOnce : PortSharing.OneAfterAnother);
        return (allocation, bankWh);
    }

    /// <summary>Puts devices on the bank: those that are flat first come first, as soon as their packs have room.</summary>
    private (PowerCourse Course, List<TopUp> TopUps) Schedule(BankAllocation? allocation, double bankWh, Typical alone)
    {
        var topUps = new List<TopUp>();
        double[] due = new double[_count];
        if (allocation is { IsFeasible: true } && _request.Bank is { } bank)
        {
            foreach (BankShare share in allocation.Shares)
            {
                for (int d = 0; d < _count; d++)
                {
                    if (_devices[d].Name == share.Name)
                    {
                        due[d] = share.IntoCell.WattHours;
                    }
                }
            }
        }
        else
        {
            return (_course, topUps);
        }

        if (!due.Any(x => x > 0))
        {
            return (_course, topUps);
        }

        int[] turn = [.. Enumerable.Range(0, _count).OrderBy(d => alone.BeyondH[d]).ThenBy(d => _devices[d].Order).ThenBy(d => _devices[d].Name, StringComparer.Ordinal)];
        double[] stored = new double[_count];
        for (int d = 0; d < _count; d++)
        {
            stored[d] = _scenario.FullWh[d] * _scenario.StartFraction[d];
        }

        var pieces = new List<(int, double, double[]?)>();
        double clock = 0;
        const double MinuteH = 1.0 / 60;
        for (int n = 0; n < _course.Count; n++)
        {
            double left = _course.Hours[n];
            while (left > 1e-9)
            {
                double step = left;
                double[]? port = null;
                int plugged = 0;
                foreach (int d in turn)
                {
                    if (due[d] <= 1e-6 || !CanTakeCharge(d, n))
                    {
                        continue;
                    }

                    double load = LoadOf(_course, d, n, _scenario.TypicalW), room = _scenario.FullWh[d] - stored[d];
                    double wanted = Math.Min(due[d], BatteriesConstants.TopUpRoom * _scenario.FullWh[d]);
                    if (room < wanted - 1e-6)
                    {
                        if (load > 0)
                        {
                            step = Math.Min(step, Math.Max(MinuteH, (wanted - room) / load));
                        }

                        continue;
                    }

                    if (plugged >= bank.Ports)
                    {
                        continue;
                    }

                    double w = Math.Min(_devices[d].IntakeW, bank.PortW), into = w * _devices[d].ChargingEfficiencyFraction;
                    port ??= new double[_count];
                    port[d] = w;
                    plugged++;
                    step = Math.Min(step, Math.Max(MinuteH, Math.Min(due[d] / into, into > load ? room / (into - load) : double.PositiveInfinity)));
                }

                step = Math.Min(step, left);
                if (left - step < MinuteH / 60)
                {
                    step = left;
                }

                for (int d = 0; d < _count; d++)
                {
                    double load = LoadOf(_course, d, n, _scenario.TypicalW);
                    double into = port?[d] > 0 ? Math.Min(port[d] * _devices[d].ChargingEfficiencyFraction * step, due[d] + (1e-9 * step)) : 0;
                    stored[d] = Math.Clamp(stored[d] + into - (load * step), 0, _scenario.FullWh[d]);
                    if (into > 0)
                    {
                        due[d] -= into;
                        Add(topUps, d, clock, clock + step, into, alone.BeyondH[d]);
                    }
                }

                pieces.Add((n, step, port));
                left -= step;
                clock += step;
            }
        }

        return (PowerCourse.Cut(_course, _count, pieces), topUps);
    }

    private void Add(List<TopUp> topUps, int d, double fromH, double toH, double wh, double deadlineH)
    {
        string name = _devices[d].Name;
        int last = topUps.FindLastIndex(t => t.Device == name);
        TimeSpan? deadline = double.IsFinite(deadlineH) && deadlineH <= _totalH ? TimeSpan.FromHours(deadlineH) : null;
        if (last >= 0 && Math.Abs((topUps[last].To - TimeSpan.FromHours(fromH)).TotalSeconds) < 1)
        {
            topUps[last] = topUps[last] with { To = TimeSpan.FromHours(toH), IntoCell = topUps[last].IntoCell + Energy.FromWattHours(wh) };
            return;
        }

        topUps.Add(new TopUp(name, TimeSpan.FromHours(fromH), TimeSpan.FromHours(toH), Energy.FromWattHours(wh), deadline));
    }

    private Sampled Sample(PowerCourse course, double bankWh, bool hasTopUps)
    {
        int samples = Math.Max(1, _request.Samples);
        bool random = _request.Samples > 0;
        var result = new Sampled(_count, samples);
        Draws draws = _draws ??= new Draws(random ? samples : 1);
        double[][] load = new double[_count][], capacity = new double[_count][], gauge = new double[_count][];
        for (int d = 0; d < _count; d++)
        {
            load[d] = draws.Stream(_request.Seed, _devices[d].Name, 1);
            capacity[d] = draws.Stream(_request.Seed, _devices[d].Name, 2);
            gauge[d] = draws.Stream(_request.Seed, _devices[d].Name, 3);
        }

        double[] air = draws.Stream(_request.Seed, "air", 4), bankDraw = draws.Stream(_request.Seed, "bank", 5);
        double airSigma = _request.TemperatureSpreadC / NormalKernel.Z90;
        double bankSigma = _request.Bank is { } bank ? Math.Sqrt((bank.Pack.CapacitySpreadFraction * bank.Pack.CapacitySpreadFraction) + (PowerBankKernel.ConverterSpread * PowerBankKernel.ConverterSpread)) / NormalKernel.Z90 : 0;
        double[] full = new double[_count], start = new double[_count], loads = new double[_count * _scenario.MaxModes], scores = new double[_count];
        double[] stored = new double[_count], outage = new double[_count], delivered = new double[_count], taken = new double[_count], scratch = new double[5 * _count];
        double[] worksAtEnd = new double[_count], worksAfterNight = new double[_count], works = new double[_count];
        (int Purpose, int[] Needs, double AtEnd, double AfterNight)[] links = Links(_ways);
        DeviceStep[][] steps = DeviceStep.Of(_scenario, _course);
        int[] plugged = hasTopUps ? [.. Enumerable.Range(0, _count).Where(course.IsPlugged)] : [];
        int rideStretches = _course.RideStretches, modes = _scenario.MaxModes;
        for (int s = 0; s < samples; s++)
        {
            if ((s & 255) == 0)
            {
                _cancellation.ThrowIfCancellationRequested();
            }

            for (int d = 0; d < _count; d++)
            {
                scores[d] = load[d][s];
                full[d] = _scenario.FullWh[d] * Math.Max(0.05, 1 + (_scenario.SpreadFraction[d] * capacity[d][s]));
                double fraction = _scenario.StartFraction[d];
                start[d] = full[d] * Math.Clamp(fraction + (BatteriesConstants.GaugeSpread * gauge[d][s] * Math.Min(1, 4 * (1 - fraction))), 0, 1);
            }

            _scenario.Loads(scores, loads);
            double airOffsetC = airSigma * air[s];
            for (int d = 0; d < _count; d++)
            {
                // Without the bank no device touches another: each runs by itself.
                var lone = new LoneState { StoredWh = start[d], OutageH = double.PositiveInfinity };
                ReadOnlySpan<double> modesW = loads.AsSpan(d * modes, modes);
                PowerKernel.RunAlone(_scenario, steps[d], 0, rideStretches, full[d], modesW, airOffsetC, ref lone);
                worksAtEnd[d] = lone.Works;
                PowerKernel.RunAlone(_scenario, steps[d], rideStretches, _course.Count, full[d], modesW, airOffsetC, ref lone);
                worksAfterNight[d] = lone.Works;
                result.AloneH[d][s] = outage[d] = double.IsFinite(lone.OutageH) ? lone.OutageH
                    : lone.LastDrawnW > 0 ? _totalH + (Math.Max(0, lone.StoredWh - lone.LastFloorWh) / lone.LastDrawnW) : double.PositiveInfinity;
            }

            if (plugged.Length > 0)
            {
                foreach (int d in plugged)
                {
                    stored[d] = start[d];
                    outage[d] = double.PositiveInfinity;
                }

                var state = new PowerState
                {
                    BankWh = bankWh * Math.Max(0.05, 1 + (bankSigma * bankDraw[s])),
                    StoredWh = stored,
                    OutageH = outage,
                    DeliveredWh = delivered,
                    TakenWh = taken,
                    Works = works,
                    Scratch = scratch,
                };
                PowerRun run = Run(course, full, loads, airOffsetC, plugged);
                PowerKernel.Run(_scenario, run, 0, course.RideStretches, ref state);
                foreach (int d in plugged)
                {
                    worksAtEnd[d] = works[d];
                }

                PowerKernel.Run(_scenario, run, course.RideStretches, course.Count, ref state);
                foreach (int d in plugged)
                {
                    worksAfterNight[d] = works[d];
                    result.WithH[d][s] = outage[d] = Beyond(course, d, outage[d], stored[d], full[d], loads, airOffsetC);
                }
            }

            Count(links, worksAtEnd, result, night: false);
            Count(links, worksAfterNight, result, night: true);
            result.AnyLampCount += AnyLamp(outage) ? 1 : 0;
        }

        result.Finish(plugged);
        if (!random)
        {
            _findings.Add(new Finding(BatteriesFindingCodes.NoSamples, FindingSeverity.Note, "samples", "No random draws were asked for: probabilities are those of the typical case, 0 or 1."));
        }

        return result;
    }

    private bool AnyLamp(ReadOnlySpan<double> outage)
    {
        for (int d = 0; d < _count; d++)
        {
            if (_devices[d].Kind is DeviceKind.HeadLamp or DeviceKind.BarLamp && outage[d] >= _rideH - 1e-9)
            {
                return true;
            }
        }

        return false;
    }

    private (int, int[], double, double)[] Links(IReadOnlyList<MessageWay> ways)
    {
        SkyView end = _request.Timeline[^1].Sky, night = _stretches[^1].Sky;
        return [.. ways.Select(way => (
            (int)way.Purpose,
            way.Needs.Select(n => Enumerable.Range(0, _count).First(d => _devices[d].Name == n)).ToArray(),
            RetryKernel.Within(way.AttemptProbability ?? RetryKernel.AttemptProbability(end), way.Attempts),
            RetryKernel.Within(way.AttemptProbability ?? RetryKernel.AttemptProbability(night), way.Attempts)))];
    }

    private static void Count((int Purpose, int[] Needs, double AtEnd, double AfterNight)[] links, double[] works, Sampled result, bool night)
    {
        double noMessage = 1, noCall = 1;
        foreach ((int purpose, int[] needs, double atEnd, double afterNight) in links)
        {
            double p = night ? afterNight : atEnd;
            foreach (int d in needs)
            {
                p *= works[d];
            }

            if (purpose == (int)MessagePurpose.Message)
            {
                noMessage *= 1 - p;
            }
            else
            {
                noCall *= 1 - p;
            }
        }

        if (night)
        {
            result.MessageAfterNight += 1 - noMessage;
            result.CallAfterNight += 1 - noCall;
        }
        else
        {
            result.MessageAtEnd += 1 - noMessage;
            result.CallAtEnd += 1 - noCall;
        }
    }
}
