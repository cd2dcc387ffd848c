using SoloRide.Internal;
using UnitsNet;

namespace SoloRide.Batteries;

/// <summary>Which device dies first, when, with what probability, and what prevents it.</summary>
[TypeFormatterSource(typeof(PlainFormatterSource), PreferredMimeTypes = ["text/html"])]
public sealed record PowerPlan
{
    /// <summary>One for each device, in the order of the request.</summary>
    public required IReadOnlyList<DevicePower> Devices { get; init; }

    /// <summary>How long the planned ride lasts in this plan; the unplanned night follows it.</summary>
    public required TimeSpan Ride { get; init; }

    /// <summary>Who gets the bank's energy, with proof; null without a bank.</summary>
    public required BankAllocation? Allocation { get; init; }

    /// <summary>Energy that the bank gives at its port; null without a bank.</summary>
    public required Estimate<Energy>? BankAtPort { get; init; }

    /// <summary>When to hang what on the bank.</summary>
    public required IReadOnlyList<TopUp> TopUps { get; init; }

    /// <summary>The device most likely to fail before the end of ride and unplanned night, without the bank; null when there are no devices.</summary>
    public required string? FirstToFail { get; init; }

    /// <summary>
    /// What helps the first to fail, the best first, each by itself; empty when it lasts ride and unplanned night with at least 95 % without help,
    /// or nothing of these helps.
    /// </summary>
    public required IReadOnlyList<PowerRemedy> Remedies { get; init; }

    /// <summary>For each device what still works when it is flat.</summary>
    public required IReadOnlyList<FlatDevice> IfFlat { get; init; }

    /// <summary>Chance that a message to home can be sent at the end of the ride [share of 1].</summary>
    public required double MessageProbability { get; init; }

    /// <summary>The same at the end of the unplanned night.</summary>
    public required double MessageAfterNightProbability { get; init; }

    /// <summary>Chance that a distress call can be raised at the end of the ride [share of 1].</summary>
    public required double DistressCallProbability { get; init; }

    /// <summary>The same at the end of the unplanned night.</summary>
    public required double DistressCallAfterNightProbability { get; init; }

    /// <summary>Chance that at least one lamp of head and bar lasts to the end of the ride, with the bank [share of 1]; null without such lamps.</summary>
    public required double? AnyLampLastsProbability { get; init; }

    /// <summary>Head and bar lamp as redundancy: each of them failing at dusk; empty when no stretch is dark or there is no such lamp.</summary>
    public required IReadOnlyList<LampFailure> IfLampFails { get; init; }

    /// <summary>The list for the evening before.</summary>
    public required IReadOnlyList<EveningCheck> EveningChecks { get; init; }

    /// <summary>Each device in turn not charged the evening before.</summary>
    public required IReadOnlyList<ForgottenCharge> IfForgotten { get; init; }

    /// <summary>What to leave switched off, most watt-hours first; the energy is that of ride and unplanned night.</summary>
    public required IReadOnlyList<string> LeaveOff { get; init; }

    /// <summary>Assumptions, limits of validity, physical outcomes.</summary>
    public required IReadOnlyList<Finding> Findings { get; init; }

    /// <summary>The cautions that every result carries.</summary>
    public IReadOnlyList<string> Cautions { get; } = BatteriesCautions.Sentences;

    /// <summary>Device by device, what dies first and what helps most, the findings and the cautions in lines.</summary>
    /// <returns>Text.</returns>
    public override string ToString()
    {
        var lines = new List<string>();
        foreach (DevicePower d in Devices)
        {
            string bank = BankAtPort is null ? "" : $" (with the bank {Text.Chance(d.LastsToEndWithBankProbability)} and {Text.Chance(d.LastsNightWithBankProbability)})";
            lines.Add($"{d.Device.Name}: {Text.F(d.Usable.Typical.WattHours, 1)} Wh for {Text.F(d.Needed.Typical.WattHours, 1)} Wh; lasts the ride with {Text.Chance(d.LastsToEndProbability)}, ride and unplanned night with {Text.Chance(d.LastsNightProbability)}{bank}.");
        }

        if (FirstToFail is { } first)
        {
            lines.Add(Remedies.Count > 0 ? $"Dies first: {first}. Helps most: {Remedies[0].Text}" : $"Dies first: {first}.");
        }

        return Render.Lines(lines.Count == 0 ? "No devices." : string.Join('\n', lines), Findings, Cautions);
    }
}
