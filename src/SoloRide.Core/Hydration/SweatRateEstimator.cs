using SoloRide.Internal;
using UnitsNet;

namespace SoloRide.Hydration;

/// <summary>Sweat rate as a band over published models, from body, weather, work, sun and clothing.</summary>
/// <remarks>
/// The typical rate is the median of the models, the range is wider than all of them: one standard error of the equations below the
/// lowest, and above the highest the larger of that error and, for hard riding, the spread seen among endurance athletes. Carry water
/// by the upper end; drink to thirst. In cool air, where the equations for heat give nothing, the band stands on the sweating of people
/// who dress for comfort, from half of it to twice. Within the models' range hotter, more humid, sunnier or harder never
/// lowers any end of the band by more than half a millilitre an hour. The breath's water is not counted; water that metabolism sets free about makes up for it.
/// Models describe healthy adults; illness, drugs, wet clothing and altitude are outside.
/// Sources: fanger-1970, gonzalez-2009, gonzalez-2012, shapiro-1982, iso-7933-2004, iso-9920, barnes-2019. Thread-safe.
/// </remarks>
[Entry]
public static class SweatRateEstimator
{
    /// <summary>Estimates the sweat rate.</summary>
    /// <param name="conditions">Body, weather, work, sun and clothing.</param>
    /// <param name="calibration">The rider's own weighed rides; null when there are none.</param>
    /// <returns>The band, the models in it, and findings.</returns>
    /// <exception cref="ArgumentException">The mechanical power is not below the metabolic rate.</exception>
    public static SweatEstimate Estimate(SweatConditions conditions, SweatCalibration? calibration = null)
    {
        Guard.NotNull(conditions);
        var findings = new List<Finding>();
        SweatInput input = SweatInput.From(conditions, findings);
        SweatBand band = input.Band();
        double toLph = input.AreaM2 / 1000;
        var models = new List<SweatModelRate>(6)
        {
            new(SweatModel.Corrected, Lph(band.CorrectedGpm2h * toLph)),
            new(SweatModel.Piecewise, Lph(band.PiecewiseGpm2h * toLph)),
            new(SweatModel.PiecewiseCool, Lph(band.CoolGpm2h * toLph)),
        };
        models.Add(new(SweatModel.HeatStrain, Lph(band.HeatStrainGpm2h * toLph)));
        models.Add(new(SweatModel.Comfort, Lph(band.ComfortGpm2h * toLph)));

        input.Scale(band, out double low, out double typical, out double high);
        if (calibration?.ModelFactor is { } factor)
        {
            // Own rides against the same models, in their own conditions: the level is the rider's, the shape the models'.
            double own = typical * factor.Typical.DecimalFractions;
            low = typical * factor.Low.DecimalFractions;
            high = typical * factor.High.DecimalFractions;
            typical = own;
            models.Add(new(SweatModel.OwnRate, Lph(own)));
            findings.Add(new Finding(HydrationFindingCodes.OwnRateUsed, FindingSeverity.Note, "calibration",
                $"The level comes from {Text.F(calibration.RidesUsed, 0)} weighed rides: {Text.F(factor.Typical.DecimalFractions, 2)} of what the models give."));
        }
        else if (conditions.Rider.SweatRate is { } ownRate || (ownRate = calibration?.Rate.Typical ?? default).LitersPerHour > 0)
        {
            typical = ownRate.LitersPerHour;
            low = typical * (1 - SweatConstants.OwnRateSpreadFraction);
            high = typical * (1 + SweatConstants.OwnRateSpreadFraction);
            if (calibration is not null && conditions.Rider.SweatRate is null)
            {
                low = Math.Min(low, calibration.Rate.Low.LitersPerHour);
                high = Math.Max(high, calibration.Rate.High.LitersPerHour);
            }

            models.Add(new(SweatModel.OwnRate, ownRate));
            findings.Add(new Finding(HydrationFindingCodes.OwnRateUsed, FindingSeverity.Note, "Rider.SweatRate",
                "The rider's own rate is used as it is; it holds only in conditions like those it was weighed in."));
        }

        if (input.EreqWpm2 > input.EmaxWpm2)
        {
            findings.Add(new Finding(HydrationFindingCodes.UncompensableHeat, FindingSeverity.Warning, "heat balance",
                $"Sweat cannot carry off the heat of this effort: {Text.F(input.EreqWpm2, 0)} W/m2 would have to evaporate, the air takes {Text.F(input.EmaxWpm2, 0)}. "
                + "Drinking does not solve it: ride slower, find shade, or turn back.",
                new FindingValue("required_w_m2", Text.F(input.EreqWpm2, 1)), new FindingValue("greatest_w_m2", Text.F(input.EmaxWpm2, 1))));
        }

        return new SweatEstimate(
            new Estimate<VolumeFlow>(Lph(typical), Lph(Math.Min(low, typical)), Lph(Math.Max(high, typical))),
            models, input.EreqWpm2, input.EmaxWpm2, findings);
    }

    private static VolumeFlow Lph(double lph) => VolumeFlow.FromLitersPerHour(lph);
}
