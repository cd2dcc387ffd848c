using System.Runtime.CompilerServices;
using SoloRide.Internal;

namespace SoloRide.Batteries;

/// <summary>
/// Exact course of all batteries: power is constant between events (a stretch ends, a cell reaches its cut-off, a cell is full, the bank is
/// empty), so energies are linear and every event time is exact. No stepping, no allocation.
/// </summary>
internal static class PowerKernel
{
    /// <summary>Loads are counted at the store: what the circuits draw over the efficiency of the cell. Runs stretches <paramref name="from"/> to <paramref name="to"/> (exclusive) and leaves the state for the next call.</summary>
    [Source("event-driven-energy", "piecewise constant power")]
    public static void Run(PowerScenario scenario, in PowerRun run, int from, int to, ref PowerState state)
    {
        int count = scenario.Count;
        Span<double> floor = state.Scratch[..count];
        Span<double> load = state.Scratch.Slice(count, count);
        Span<double> offer = state.Scratch.Slice(2 * count, count);
        Span<double> net = state.Scratch.Slice(3 * count, count);
        Span<double> efficiency = state.Scratch.Slice(4 * count, count);
        ReadOnlySpan<double> warm = scenario.WarmShare, full = run.FullWh[..count];
        bool hasPort = !run.PortW.IsEmpty, hasExtra = !run.ExtraW.IsEmpty, hasWind = !run.WindShare.IsEmpty;
        int runs = run.Only.IsEmpty ? count : run.Only.Length;
        for (int n = from; n < to; n++)
        {
            double hours = run.Hours[n];
            if (!(hours > 0))
            {
                continue;
            }

            double airC = run.AirC[n] + run.AirOffsetC;
            double wind = hasWind ? run.WindShare[n] : 1;
            int row = n * count;
            ReadOnlySpan<sbyte> modes = run.Mode.Slice(row, count);
            bool bank = hasPort && state.BankWh > 0, coupled = false;
            for (int k = 0; k < runs; k++)
            {
                int d = run.Only.IsEmpty ? k : run.Only[k];
                double cellC = CellKernel.CellC(airC, warm[d] * wind);
                int mode = modes[d];
                CellShare share = scenario.Share(d, mode, cellC);
                double w = mode < 0 ? 0 : run.LoadW[(d * scenario.MaxModes) + mode];
                if (hasExtra)
                {
                    w += run.ExtraW[row + d];
                }

                double drawn = Drawn(w, share), held = full[d] * share.Floor;
                double port = bank ? run.PortW[row + d] : 0;
                if (port > 0 && cellC >= scenario.ChargeFloorC[d])
                {
                    floor[d] = held;
                    load[d] = drawn;
                    efficiency[d] = share.Efficiency;
                    offer[d] = port * scenario.EfficiencyFraction[d];
                    coupled = true;
                }
                else
                {
                    offer[d] = 0;
                    Alone(d, hours, held, drawn, w, ref state);
                }
            }

            if (coupled)
            {
                Coupled(scenario, run, hours, floor, load, offer, efficiency, net, ref state);
            }

            state.ClockH += hours;
        }
    }

    /// <summary>One device without a bank over stretches <paramref name="from"/> to <paramref name="to"/> (exclusive): the same course of events as <see cref="Run"/>.</summary>
    /// <param name="scenario">Devices made ready.</param>
    /// <param name="steps">The device's stretches.</param>
    /// <param name="from">First stretch.</param>
    /// <param name="to">Stretch after the last.</param>
    /// <param name="fullWh">Energy of the full pack in this sample.</param>
    /// <param name="modesW">Draw of each mode of the device in this sample.</param>
    /// <param name="airOffsetC">Error of the air temperature in this sample.</param>
    /// <param name="lone">In and out: the state.</param>
    public static void RunAlone(
        PowerScenario scenario, ReadOnlySpan<DeviceStep> steps, int from, int to, double fullWh, ReadOnlySpan<double> modesW, double airOffsetC, ref LoneState lone)
    {
        double stored = lone.StoredWh, clock = lone.ClockH;
        for (int n = from; n < to; n++)
        {
            ref readonly DeviceStep step = ref steps[n];
            double w = (step.Mode < 0 ? 0 : modesW[step.Mode]) + step.ExtraW;
            bool last = n == to - 1;
            if (w > 0 || last)
            {
                CellShare share = scenario.ShareInRow(step.Row, step.GridX + (step.GridSlope * airOffsetC));
                double above = stored - (fullWh * share.Floor), drawn = Drawn(w, share), used = drawn * step.Hours;
                bool works = above > used;
                if (works)
                {
                    stored -= used;
                }
                else if (w > 0)
                {
                    stored -= Math.Max(0, above);
                    lone.OutageH = Math.Min(lone.OutageH, clock + (Math.Max(0, above) / drawn));
                }

                if (last)
                {
                    lone.Works = works ? 1 : 0;
                    lone.LastDrawnW = drawn;
                    lone.LastFloorWh = fullWh * share.Floor;
                }
            }

            clock += step.Hours;
        }

        lone.StoredWh = stored;
        lone.ClockH = clock;
    }

    /// <summary>[W] Draw on the store.</summary>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private static double Drawn(double loadW, in CellShare share) => share.Delivered > 0 ? loadW * share.Open / share.Delivered : loadW;

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private static void Alone(int d, double hours, double floorWh, double drawnW, double loadW, ref PowerState state)
    {
        double stored = state.StoredWh[d], above = stored - floorWh, used = drawnW * hours;
        if (above > used)
        {
            state.StoredWh[d] = stored - used;
            state.DeliveredWh[d] += loadW * hours;
            state.Works[d] = 1;
            return;
        }

        state.Works[d] = 0;
        if (drawnW > 0)
        {
            if (above > 0)
            {
                state.StoredWh[d] = floorWh;
                state.DeliveredWh[d] += above * (loadW / drawnW);
            }

            state.OutageH[d] = Math.Min(state.OutageH[d], state.ClockH + (Math.Max(0, above) / drawnW));
        }
    }

    /// <summary>The devices that hang on the bank: those with an offer.</summary>
    private static void Coupled(
        PowerScenario scenario, in PowerRun run, double hours, ReadOnlySpan<double> floor, ReadOnlySpan<double> load, ReadOnlySpan<double> offer, ReadOnlySpan<double> efficiency, Span<double> net,
        ref PowerState state)
    {
        int count = scenario.Count;
        double left = hours;
        double clock = state.ClockH;
        while (left > 0)
        {
            double step = left;
            int event_ = -1;
            double portW = 0;
            for (int d = 0; d < count; d++)
            {
                if (offer[d] <= 0)
                {
                    continue;
                }

                double stored = state.StoredWh[d];
                double above = stored - floor[d];
                double inW = state.BankWh > 0 ? offer[d] : 0;
                double rate;
                if (stored >= run.FullWh[d])
                {
                    inW = Math.Min(inW, load[d]);
                    rate = inW - load[d];
                }
                else if (above <= 0 && inW < load[d])
                {
                    // Off: below the cut-off it gathers charge; at the cut-off the supply is used up as it comes.
                    state.OutageH[d] = Math.Min(state.OutageH[d], clock);
                    rate = above < 0 ? inW : 0;
                }
                else
                {
                    rate = inW - load[d];
                }

                net[d] = rate;
                portW += inW / scenario.EfficiencyFraction[d];
                double t = rate < 0 ? above / -rate
                    : rate > 0 ? ((above < 0 && inW < load[d]) ? -above / rate : (run.FullWh[d] - stored) / rate)
                    : double.PositiveInfinity;
                if (t < step)
                {
                    step = t;
                    event_ = d;
                }
            }

            if (portW > 0 && state.BankWh / portW < step)
            {
                step = state.BankWh / portW;
                event_ = count;
            }

            for (int d = 0; d < count; d++)
            {
                if (offer[d] <= 0)
                {
                    continue;
                }

                double stored = state.StoredWh[d];
                double above = stored - floor[d];
                double inW = state.BankWh > 0 ? offer[d] : 0;
                bool off = above <= 0 && inW < load[d] && stored < run.FullWh[d];
                if (stored >= run.FullWh[d])
                {
                    inW = Math.Min(inW, load[d]);
                }

                state.TakenWh[d] += inW / scenario.EfficiencyFraction[d] * step;
                state.DeliveredWh[d] += (off ? (above < 0 ? 0 : inW) : load[d]) * efficiency[d] * step;
                double next = stored + (net[d] * step);
                state.StoredWh[d] = event_ != d ? next : net[d] < 0 || (above < 0 && off) ? floor[d] : run.FullWh[d];
            }

            state.BankWh = event_ == count ? 0 : Math.Max(0, state.BankWh - (portW * step));
            left = event_ < 0 ? 0 : left - step;
            clock += step;
        }

        for (int d = 0; d < count; d++)
        {
            if (offer[d] <= 0)
            {
                continue;
            }

            double above = state.StoredWh[d] - floor[d];
            bool carried = state.BankWh > 0 && offer[d] >= load[d];
            state.Works[d] = above > 0 || carried ? 1 : 0;
            if (above <= 0 && !carried && load[d] > 0)
            {
                state.OutageH[d] = Math.Min(state.OutageH[d], clock);
            }
        }
    }
}
