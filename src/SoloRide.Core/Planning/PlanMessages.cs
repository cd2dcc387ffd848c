using System.Globalization;
using SoloRide.Internal;

namespace SoloRide.Planning;

/// <summary>Short messages from a plan, in plain ASCII and within one burst of 160 characters.</summary>
internal static class PlanMessages
{
    private const int Burst = 160;

    public static string OnTrail(RidePlan plan, double paceFactor)
    {
        PlanStation here = plan.Stations[0];
        string eta = plan.Finish is { } f ? $" ETA {PlanText.Range(f, plan.Zone, plan.Start)}" : "";
        string next = plan.Home?.CheckIns.Skip(1).Select(c => $" next {Text.Clock(plan.Zone.ToLocal(c.At))}").FirstOrDefault() ?? "";
        string call = plan.Home is { } h ? $" call by {PlanText.ClockOn(plan.Zone.ToLocal(h.Alarm), plan.Start)}" : "";
        string text = string.Create(CultureInfo.InvariantCulture, $"ON WAY {Text.Clock(plan.Start)} OK {here.Place.LatDeg:F5},{here.Place.LonDeg:F5} pace x{paceFactor:F2}{eta}{next}{call}");
        return text.Length <= Burst ? text : text[..Burst];
    }
}
