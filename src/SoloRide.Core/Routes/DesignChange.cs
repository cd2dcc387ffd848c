using SoloRide.Internal;
using UnitsNet;

namespace SoloRide.Routes;

/// <summary>One change of a route and what it did.</summary>
/// <param name="Kind">What was done.</param>
/// <param name="Words">What was done and where, in one sentence.</param>
/// <param name="From">Where the changed stretch begins, on the new route.</param>
/// <param name="To">Where it ends; the same place when something was taken away.</param>
/// <param name="Before">Figures of the route before.</param>
/// <param name="After">Figures of the route after.</param>
public sealed record DesignChange(DesignChangeKind Kind, string Words, Length From, Length To, RouteFigures Before, RouteFigures After)
{
    /// <summary>Length gained; negative when shorter.</summary>
    public Length LengthGained => After.Length - Before.Length;

    /// <summary>Ascent gained; null without heights.</summary>
    public Length? AscentGained => After.Ascent - Before.Ascent;

    /// <summary>Exits that the new route no longer passes.</summary>
    public IReadOnlyList<string> ExitsLost => [.. Before.Exits.Except(After.Exits)];

    /// <summary>Exits that the new route passes and the old one did not.</summary>
    public IReadOnlyList<string> ExitsGained => [.. After.Exits.Except(Before.Exits)];

    /// <summary>Words and figures.</summary>
    /// <returns>One line of text.</returns>
    public override string ToString()
    {
        string text = $"{Words} Length {Signed(LengthGained.Meters)} m to {Text.F(After.Length.Kilometers, 2)} km";
        text += AscentGained is { } a ? $", ascent {Signed(a.Meters)} m to {Text.F(After.Ascent!.Value.Meters, 0)} m" : ", ascent unknown";
        text += After.Hardest != Before.Hardest ? $", hardest {Level(Before.Hardest)} to {Level(After.Hardest)}" : "";
        text += ExitsLost.Count > 0 ? $", exits lost: {string.Join(", ", ExitsLost)}" : "";
        text += ExitsGained.Count > 0 ? $", exits gained: {string.Join(", ", ExitsGained)}" : "";
        return text + ".";
    }

    private static string Signed(double m) => (m >= 0 ? "+" : "") + Text.F(m, 0);

    private static string Level(TrailDifficulty d) => d == TrailDifficulty.Unknown ? "not stated" : "level " + Text.F((int)d, 0);
}
