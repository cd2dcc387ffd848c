namespace SoloRide.Batteries;

/// <summary>One device, one ride, one night, by the two-line rule: the hand calculation beside the plan.</summary>
internal static class BalanceKernel
{
    public readonly record struct Balance(
        double RateC, double Share, double UsableWh, double AvailableWh, double RideWh, double NightWh, double MarginWh, double DepletionH, double TopUpWh);

    public static Balance Of(
        double ratedMah, double nominalV, double health, double charge, double idleDays, double selfDischargePerMonth, double cellC, double cutOffV,
        double rideW, double rideH, double nightW, double nightH, double reserveFraction)
    {
        double nominalWh = ratedMah / 1000 * nominalV;
        double rate = rideW / nominalWh;
        double share = CellKernel.TwoLineFraction(cellC, rate, cutOffV);
        double usable = nominalWh * health * charge * CellKernel.SelfDischargeLeft(selfDischargePerMonth, idleDays) * share;
        double available = usable * (1 - reserveFraction);
        double ride = rideW * rideH, night = nightW * nightH;
        double margin = available - ride - night;
        double depletion = ride >= available ? available / rideW : nightW > 0 ? rideH + ((available - ride) / nightW) : double.PositiveInfinity;
        return new Balance(rate, share, usable, available, ride, night, margin, depletion, Math.Max(0, -margin));
    }
}
