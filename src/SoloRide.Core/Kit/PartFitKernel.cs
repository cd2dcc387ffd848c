using SoloRide.Internal;

namespace SoloRide.Kit;

/// <summary>Compares a spare part with a bike; only what both say.</summary>
internal static class PartFitKernel
{
    /// <summary>Part of the valve that must stand out of the rim for the pump's head.</summary>
    [Source("assumption-kit", "valve beyond the rim")]
    public const double ValveBeyondRimMm = 15;

    /// <summary>Why the part does not fit; null when nothing speaks against it.</summary>
    public static string? Misfit(PartFit part, PartFit bike)
    {
        if (Differ(part.HangerType, bike.HangerType))
        {
            return $"hanger '{part.HangerType}', the bike has '{bike.HangerType}'";
        }

        if (Differ(part.PadShape, bike.PadShape))
        {
            return $"brake pads '{part.PadShape}', the bike has '{bike.PadShape}'";
        }

        if (Differ(part.AxleType, bike.AxleType))
        {
            return $"axle '{part.AxleType}', the bike has '{bike.AxleType}'";
        }

        if (part.Sprockets is { } ps && bike.Sprockets is { } bs && ps != bs)
        {
            return $"made for {ps} sprockets, the bike has {bs}";
        }

        if (part.BeadSeatMm is { } pb && bike.BeadSeatMm is { } bb && pb != bb)
        {
            return $"made for a bead seat of {pb} mm, the bike has {bb} mm";
        }

        if (part.ValveMm < bike.RimDepthMm + ValveBeyondRimMm)
        {
            return $"the valve is {Text.F(part.ValveMm, 0)} mm long; the rim is {Text.F(bike.RimDepthMm, 0)} mm deep and {Text.F(ValveBeyondRimMm, 0)} mm must stand out";
        }

        if (bike.WidthLowMm < part.WidthLowMm || bike.WidthLowMm > part.WidthHighMm)
        {
            string range = double.IsNaN(part.WidthHighMm) ? $"{Text.F(part.WidthLowMm, 0)} mm and wider" : $"{Text.F(part.WidthLowMm, 0)} to {Text.F(part.WidthHighMm, 0)} mm";
            return $"made for tyres of {range}, the bike has {Text.F(bike.WidthLowMm, 0)} mm";
        }

        return null;
    }

    private static bool Differ(string? a, string? b)
        => !string.IsNullOrWhiteSpace(a) && !string.IsNullOrWhiteSpace(b) && !string.Equals(a.Trim(), b.Trim(), StringComparison.OrdinalIgnoreCase);
}
