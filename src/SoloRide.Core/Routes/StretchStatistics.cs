using UnitsNet;

namespace SoloRide.Routes;

/// <summary>Figures of one stretch of a route, from the smoothed profile.</summary>
/// <param name="From">Where it begins, from the start of the route.</param>
/// <param name="To">Where it ends.</param>
/// <param name="Ascent">Sum of rises at the scale of the profile; stretches that follow each other add up to the whole.</param>
/// <param name="Descent">Sum of falls, positive.</param>
/// <param name="MeanGrade">Height difference of the ends over the length.</param>
/// <param name="Lowest">Lowest height; null without heights.</param>
/// <param name="Highest">Highest height; null without heights.</param>
/// <param name="SteepestUp">Steepest grade uphill at the scale of the profile.</param>
/// <param name="SteepestDown">Steepest grade downhill, negative.</param>
public sealed record StretchStatistics(
    Length From, Length To, Length Ascent, Length Descent, Grade MeanGrade, Length? Lowest, Length? Highest, Grade SteepestUp, Grade SteepestDown)
{
    /// <summary>Length of the stretch.</summary>
    public Length Distance => To - From;
}
