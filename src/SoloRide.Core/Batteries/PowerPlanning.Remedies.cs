using SoloRide.Internal;

namespace SoloRide.Batteries;

/// <content>What helps the first to fail, and what still works when a device is flat.</content>
internal sealed partial class PowerPlanning
{
    private List<FlatDevice> IfFlat() =>
    [
        .. _devices.Select(d => new FlatDevice(d.Name, Left(d, MessagePurpose.Message), Left(d, MessagePurpose.DistressCall))),
    ];

    private List<string> Left(Device flat, MessagePurpose purpose)
        => [.. _ways.Where(w => w.Purpose == purpose && !w.Needs.Contains(flat.Name)).Select(w => w.Name)];

    /// <summary>Each remedy is run with the same draws as the plan, for the one device, so that the difference is that of the remedy.</summary>
    private List<PowerRemedy> Remedies(DevicePower failing, List<TopUp> topUps)
    {
        var list = new List<PowerRemedy>();
        if (failing.LastsNightProbability >= BatteriesConstants.RemedyBelow)
        {
            return list;
        }

        Device device = failing.Device;
        int index = -1;
        for (int d = 0; d < _count; d++)
        {
            index = ReferenceEquals(_devices[d], device) ? d : index;
        }

        bool isCell = device.Pack.Chemistry is CellChemistry.PrimaryLithium or CellChemistry.Alkaline;
        if (device.StartChargeFraction < 1 || device.IdleSince > TimeSpan.Zero)
        {
            Add(PowerRemedyKind.ChargeFull, isCell ? "Put in fresh cells before the start." : "Charge it to full shortly before the start, in the warm.", device with { StartChargeFraction = 1, IdleSince = TimeSpan.Zero }, null);
        }

        if (device.Carried != CarryPlace.Pocket && !device.IsLamp && device.Kind != DeviceKind.DriveBattery)
        {
            Add(PowerRemedyKind.CarryWarm, "Carry it in an inner pocket, warm.", device with { Carried = CarryPlace.Pocket }, null);
        }

        DeviceMode? sparing = device.Modes
            .Where(m => m.Use != ModeUse.Off && (!device.IsLamp || (m.Use == ModeUse.Lighting && (double.IsNaN(_request.NeededLm) || m.Light?.FluxLm >= _request.NeededLm))))
            .OrderBy(m => m.TypicalW).ThenBy(m => m.Name, StringComparer.Ordinal).FirstOrDefault();
        if (sparing is not null)
        {
            Add(PowerRemedyKind.LowerMode, $"Run it in the mode '{sparing.Name}' throughout{(device.IsLamp ? "; ride no faster than that light allows" : "")}.", device, sparing);
        }

        if (topUps.Exists(t => t.Device == device.Name))
        {
            Put(new PowerRemedy(device.Name, PowerRemedyKind.TopUp, "Hang it on the bank when the plan says.", failing.LastsToEndWithBankProbability, failing.LastsNightWithBankProbability));
        }

        return [.. list.OrderByDescending(r => r.LastsNightProbability).ThenByDescending(r => r.LastsToEndProbability).ThenBy(r => r.Kind)];

        void Add(PowerRemedyKind kind, string text, Device variant, DeviceMode? mode)
        {
            var request = new PowerRequest
            {
                Devices = [variant],
                Timeline = [.. Enumerable.Range(0, _course.RideStretches).Select(n => Stretch(n, mode))],
                UnplannedNight = [.. Enumerable.Range(_course.RideStretches, _course.Count - _course.RideStretches).Select(n => Stretch(n, mode))],
                TemperatureSpread = _request.TemperatureSpread,
                Samples = _request.Samples,
                Seed = _request.Seed,
            };
            var one = new PowerPlanning(request, _cancellation) { _draws = _draws };
            Sampled sampled = one.Sample(one._course, 0, hasTopUps: false);
            Put(new PowerRemedy(device.Name, kind, text, Sampled.Share(sampled.AloneH[0], _rideH), Sampled.Share(sampled.AloneH[0], _totalH)));
        }

        // The stretch as the plan runs it, for this device alone; a mode that draws less takes the place of those that draw more.
        PowerInterval Stretch(int n, DeviceMode? mode)
        {
            int now = _course.Mode[(n * _count) + index];
            string name = now < 0 ? "off" : mode is not null && mode.TypicalW < device.Modes[now].TypicalW ? mode.Name : device.Modes[now].Name;
            return _stretches[n] with
            {
                Modes = new Dictionary<string, string>(StringComparer.Ordinal) { [device.Name] = name },
                Messages = _course.ExtraW[(n * _count) + index] > 0 ? _stretches[n].Messages : 0,
            };
        }

        void Put(PowerRemedy remedy)
        {
            if (remedy.LastsNightProbability > failing.LastsNightProbability || remedy.LastsToEndProbability > failing.LastsToEndProbability)
            {
                list.Add(remedy);
            }
        }
    }
}
