using SoloRide.Internal;
using UnitsNet;

namespace SoloRide.Batteries;

/// <content>From the runs to what people read.</content>
internal sealed partial class PowerPlanning
{
    private DevicePower Result(int d, Typical with, Sampled sampled, double shortfall)
    {
        Device device = _devices[d];
        Estimate<Energy> usable = Usable(d);
        DeviceMode? needed = NeededMode(device);
        double atEndWh = UsableAt(with, d, with.Course.RideStretches);
        Estimate<TimeSpan>? lampTime = null;
        TimeSpan? lampAtEnd = null;
        if (needed is { TypicalW: > 0 })
        {
            lampTime = Estimate.Of(
                Sampled.Span(usable.Typical.WattHours / needed.TypicalW),
                Sampled.Span(usable.Low.WattHours / needed.HighW),
                Sampled.Span(usable.High.WattHours / Math.Max(needed.LowW, 1e-6)));
            lampAtEnd = Sampled.Span(atEndWh / needed.TypicalW);
        }

        return new DevicePower
        {
            Device = device,
            Charge = Curve(with, d),
            Depletion = Sampled.Depletion(sampled.AloneH[d], _request.RangeLevel),
            DepletionWithBank = Sampled.Depletion(sampled.WithH[d], _request.RangeLevel),
            LastsToEndProbability = Sampled.Share(sampled.AloneH[d], _rideH),
            LastsToEndWithBankProbability = Sampled.Share(sampled.WithH[d], _rideH),
            LastsNightProbability = Sampled.Share(sampled.AloneH[d], _totalH),
            LastsNightWithBankProbability = Sampled.Share(sampled.WithH[d], _totalH),
            Usable = usable,
            Needed = Needed(d),
            Shortfall = Energy.FromWattHours(shortfall),
            NeededMode = needed,
            LampTime = lampTime,
            LampTimeAtEnd = lampAtEnd,
            UsableAtEnd = Energy.FromWattHours(atEndWh),
        };
    }

    /// <summary>What comes out in the worst stretch in which the device is wanted, from a state of charge.</summary>
    private Estimate<Energy> Usable(int d)
    {
        double start = _scenario.StartFraction[d], worst = double.PositiveInfinity;
        for (int n = 0; n < _course.Count; n++)
        {
            if (LoadOf(_course, d, n, _scenario.TypicalW) > 0)
            {
                CellShare share = ShareOf(_course, d, n);
                worst = Math.Min(worst, Math.Max(0, start - share.Floor) * share.Efficiency);
            }
        }

        if (double.IsInfinity(worst))
        {
            CellShare idle = ShareOf(_course, d, 0);
            worst = Math.Max(0, start - idle.Floor) * idle.Efficiency;
        }

        double spread = _devices[d].Pack.CapacitySpreadFraction;
        Energy At(double capacity) => Energy.FromWattHours(_scenario.FullWh[d] * capacity * worst);
        return Estimate.Of(At(1), At(1 - spread), At(1 + spread));
    }

    private Estimate<Energy> Needed(int d)
    {
        double low = 0, typical = 0, high = 0;
        for (int n = 0; n < _course.Count; n++)
        {
            int mode = _course.Mode[(n * _count) + d];
            double extra = _course.ExtraW[(n * _count) + d] * _course.Hours[n];
            low += extra;
            typical += extra;
            high += extra;
            if (mode >= 0)
            {
                DeviceMode m = _devices[d].Modes[mode];
                low += m.LowW * _course.Hours[n];
                typical += m.TypicalW * _course.Hours[n];
                high += m.HighW * _course.Hours[n];
            }
        }

        return Estimate.Of(Energy.FromWattHours(typical), Energy.FromWattHours(low), Energy.FromWattHours(high));
    }

    private DeviceMode? NeededMode(Device device)
    {
        if (!device.IsLamp)
        {
            return null;
        }

        double needed = _request.NeededLm;
        DeviceMode? best = null;
        foreach (DeviceMode mode in device.Modes)
        {
            if (mode.Use != ModeUse.Lighting)
            {
                continue;
            }

            if (double.IsNaN(needed))
            {
                return mode;
            }

            if (mode.Light is { } light && light.FluxLm >= needed && (best is null || mode.TypicalW < best.TypicalW))
            {
                best = mode;
            }
        }

        return best;
    }

    private double FloorWh(PowerCourse course, int d, int n)
        => _scenario.FullWh[d] * ShareOf(course, d, n).Floor;

    /// <summary>What can be used at the beginning of a stretch, in the conditions of the one before.</summary>
    private double UsableAt(Typical typical, int d, int stretch)
        => Math.Max(0, typical.StoredWh[(stretch * _count) + d] - FloorWh(typical.Course, d, Math.Max(0, stretch - 1)))
            * ShareOf(typical.Course, d, Math.Max(0, stretch - 1)).Efficiency;

    private List<ChargeAt> Curve(Typical typical, int d)
    {
        var points = new List<ChargeAt>();
        double clock = 0, full = _scenario.FullWh[d];
        for (int n = 0; n <= typical.Course.Count; n++)
        {
            double stored = typical.StoredWh[(n * _count) + d];
            double floor = FloorWh(typical.Course, d, Math.Min(n, typical.Course.Count - 1));
            points.Add(new ChargeAt(TimeSpan.FromHours(clock), stored / full, Math.Max(0, stored - floor) / full));
            if (n < typical.Course.Count)
            {
                double outage = typical.OutageH[d];
                if (outage > clock + 1e-9 && outage < clock + typical.Course.Hours[n] - 1e-9)
                {
                    points.Add(new ChargeAt(TimeSpan.FromHours(outage), floor / full, 0));
                }

                clock += typical.Course.Hours[n];
            }
        }

        return points;
    }

    private static string? FirstToFail(DevicePower[] devices)
        => devices.OrderBy(p => p.LastsNightProbability).ThenBy(p => p.LastsToEndProbability).ThenBy(p => p.Depletion?.Typical ?? TimeSpan.MaxValue)
            .ThenBy(p => p.Device.Order).ThenBy(p => p.Device.Name, StringComparer.Ordinal).FirstOrDefault()?.Device.Name;

    private List<LampFailure> LampFailures(DevicePower[] devices)
    {
        double darkH = 0;
        for (int n = 0; n < _course.RideStretches; n++)
        {
            darkH += _stretches[n].IsDark ? _course.Hours[n] : 0;
        }

        var list = new List<LampFailure>();
        if (darkH <= 0)
        {
            return list;
        }

        DevicePower[] lamps = [.. devices.Where(p => p.Device.Kind is DeviceKind.HeadLamp or DeviceKind.BarLamp)];
        foreach (DevicePower failed in lamps)
        {
            DevicePower? best = lamps.Where(p => p != failed).OrderByDescending(p => p.LampTime?.Low ?? TimeSpan.Zero).ThenBy(p => p.Device.Name, StringComparer.Ordinal).FirstOrDefault();
            list.Add(new LampFailure(failed.Device.Name, best?.Device.Name, TimeSpan.FromHours(darkH), best?.LampTime, best?.LampTime is { } t && t.Low >= TimeSpan.FromHours(darkH)));
        }

        return list;
    }

    private List<string> LeaveOff(double[] shortfall)
        => shortfall.Any(s => s > 0)
            ? [.. Enumerable.Range(0, _count).Where(d => _devices[d].Order >= 4 && Needed(d).Typical.WattHours > 0)
                .OrderByDescending(d => Needed(d).Typical.WattHours).ThenBy(d => _devices[d].Name, StringComparer.Ordinal).Select(d => _devices[d].Name)]
            : [];

    private List<ForgottenCharge> Forgotten()
    {
        var list = new List<ForgottenCharge>();
        for (int d = 0; d < _count; d++)
        {
            double fraction = Math.Min(_scenario.StartFraction[d], BatteriesConstants.ForgottenFraction);
            double stored = _scenario.FullWh[d] * fraction, clock = 0, flat = double.PositiveInfinity;
            for (int n = 0; n < _course.Count && double.IsInfinity(flat); n++)
            {
                double load = LoadOf(_course, d, n, _scenario.TypicalW), above = Math.Max(0, stored - FloorWh(_course, d, n));
                if (load > 0 && above <= load * _course.Hours[n])
                {
                    flat = clock + (above / load);
                }

                stored -= load * _course.Hours[n];
                clock += _course.Hours[n];
            }

            flat = Beyond(_course, d, flat, stored, _scenario.FullWh[d], _scenario.TypicalW, 0);
            list.Add(new ForgottenCharge(_devices[d].Name, fraction, flat >= _rideH - 1e-9, flat >= BatteriesConstants.HorizonH ? null : Sampled.Span(flat)));
        }

        return list;
    }

    private void DeviceFindings(DevicePower[] devices, Typical with, BankAllocation? allocation)
    {
        foreach (DevicePower p in devices)
        {
            string name = p.Device.Name;
            if (!p.Device.Pack.IsAnchored)
            {
                _findings.Add(new Finding(
                    BatteriesFindingCodes.NoAnchor, FindingSeverity.Caution, name,
                    p.Device.Pack.ColdTable is null
                        ? "No measured anchor for these cells in the cold: an assumption stands in; give your own table."
                        : "These cells run on your own table; no measured anchor stands behind it."));
            }

            double flat = with.OutageH[Array.IndexOf(devices, p)];
            if (flat < _rideH - 1e-9)
            {
                _findings.Add(new Finding(BatteriesFindingCodes.FlatBeforeEnd, FindingSeverity.Warning, name, $"Flat after {Text.Span(TimeSpan.FromHours(flat))}, before the end of the ride, also with the top-ups: carry more, use less, or charge earlier."));
            }
            else if (flat < _totalH - 1e-9)
            {
                _findings.Add(new Finding(BatteriesFindingCodes.FlatInNight, FindingSeverity.Caution, name, $"Lasts the ride, but is flat after {Text.Span(TimeSpan.FromHours(flat))} of ride and unplanned night."));
            }

            if (allocation?.Shares.FirstOrDefault(s => s.Name == name) is { } share && share.Unmet.WattHours > 1e-6)
            {
                _findings.Add(new Finding(BatteriesFindingCodes.BankShort, FindingSeverity.Caution, name, $"The bank gives {Text.F(share.IntoCell.WattHours, 1)} Wh; {Text.F(share.Unmet.WattHours, 1)} Wh are missing."));
            }
            else if (flat < _totalH - 1e-9 && allocation?.Shares.Any(s => s.Name == name) == true)
            {
                _findings.Add(new Finding(BatteriesFindingCodes.TopUpTooLate, FindingSeverity.Caution, name, "The bank holds enough, but the device cannot hang on it before it is flat: plan an earlier stop for it."));
            }

            if (p.Device.IsLamp && p.NeededMode is null)
            {
                _findings.Add(new Finding(BatteriesFindingCodes.LampTooDim, FindingSeverity.Warning, name, double.IsNaN(_request.NeededLm) ? "No lit mode is given." : $"No mode gives the {Text.F(_request.NeededLm, 0)} lm asked for."));
            }
        }
    }

    private void RequestFindings()
    {
        if (_request.UnplannedNight.Count == 0)
        {
            _findings.Add(new Finding(BatteriesFindingCodes.NoNight, FindingSeverity.Note, "unplanned night", "No unplanned night is given: lasting through the night means lasting to the end of the ride."));
        }

        if (_request.Bank is null)
        {
            _findings.Add(new Finding(BatteriesFindingCodes.NoBank, FindingSeverity.Note, "power bank", "No power bank is carried."));
        }

        _findings.Add(new Finding(BatteriesFindingCodes.PowerRanges, FindingSeverity.Note, "power draws", "Draws are ranges; few of them have a measured anchor. A discharge log of your own devices beats them."));
        if (_request.Timeline.Concat(_request.UnplannedNight).Any(i => i.AirC is < -20 or > 45))
        {
            _findings.Add(new Finding(BatteriesFindingCodes.OutsideCold, FindingSeverity.Caution, "air temperature", "Outside -20 to 45 C no cell of ours was measured: the results are held at the ends and are weaker than they look."));
        }

        if (_request.Beacon is { } beacon)
        {
            if (beacon.BatteryExpires is { } last && _request.Date is { } day && last < day)
            {
                _findings.Add(new Finding(BatteriesFindingCodes.BeaconExpired, FindingSeverity.Warning, beacon.Name, "Its battery is out of date: it is not counted. Have it serviced before the ride."));
            }
            else if (beacon.BatteryExpires is null || _request.Date is null || beacon.Registered != Known.Yes)
            {
                _findings.Add(new Finding(BatteriesFindingCodes.BeaconUnknown, FindingSeverity.Caution, beacon.Name, "Expiry or registration was not checked: a beacon must be in date and registered."));
            }

            if (beacon.SelfTestsAllowed is { } allowed && beacon.SelfTests > allowed)
            {
                _findings.Add(new Finding(BatteriesFindingCodes.BeaconTests, FindingSeverity.Warning, beacon.Name, "More self-tests were made than its maker allows for one battery: the run time of a distress call may be shorter."));
            }
        }

        if (!_ways.Any(w => w.Purpose == MessagePurpose.Message))
        {
            _findings.Add(new Finding(BatteriesFindingCodes.NoWayToMessage, FindingSeverity.Caution, "messages", "No way to send a message beyond coverage is known."));
        }

        if (!_ways.Any(w => w.Purpose == MessagePurpose.DistressCall))
        {
            _findings.Add(new Finding(BatteriesFindingCodes.NoWayToCall, FindingSeverity.Warning, "distress call", "No way to raise a distress call beyond coverage is known."));
        }
    }

    private List<EveningCheck> Evening(DevicePower[] devices)
    {
        var list = new List<EveningCheck>();
        foreach (DevicePower p in devices.OrderBy(x => x.Device.Order).ThenBy(x => x.Device.Name, StringComparer.Ordinal))
        {
            Device d = p.Device;
            if (d.Pack.Chemistry is CellChemistry.PrimaryLithium or CellChemistry.Alkaline)
            {
                list.Add(new EveningCheck(EveningAction.Replace, d.Name, p.LastsNightProbability < 0.95 ? "Put in fresh cells and pack a spare set." : "Check the cells; pack a spare set."));
            }
            else if (d.StartChargeFraction < 0.995 || d.IdleSince > TimeSpan.FromDays(2))
            {
                list.Add(new EveningCheck(EveningAction.Charge, d.Name, $"Charge to full, in the warm: {Text.F(d.StartChargeFraction * 100, 0)} % now; lasts the ride with {Text.Chance(p.LastsToEndProbability)}."));
            }
        }

        if (_request.Bank is { } bank)
        {
            if (bank.StartChargeFraction < 0.995 || bank.IdleSince > TimeSpan.FromDays(7))
            {
                list.Add(new EveningCheck(EveningAction.Charge, bank.Name, $"Charge to full: {Text.F(bank.StartChargeFraction * 100, 0)} % now."));
            }

            list.Add(new EveningCheck(EveningAction.Pack, bank.Name, "Pack it with a cable for each device that hangs on it; keep it and them dry and above 0 C while charging."));
        }

        if (_request.Beacon is { } beacon)
        {
            list.Add(new EveningCheck(EveningAction.Check, beacon.Name, beacon.BatteryExpires is { } e
                ? $"In date until {e.ToString("yyyy-MM-dd", System.Globalization.CultureInfo.InvariantCulture)}; registered: {beacon.Registered}; self-tests so far: {beacon.SelfTests}. Never used as a lamp, never tested by triggering."
                : "Read the expiry date on it and check its registration. Never test it by triggering."));
        }

        foreach (Device d in _devices.Where(d => d.Kind == DeviceKind.Phone))
        {
            list.Add(new EveningCheck(EveningAction.Set, d.Name, "Maps on board, radio off where there is no coverage: searching for a network is its largest hidden drain."));
        }

        return list;
    }
}
