namespace SoloRide.Hydration;

/// <summary>Sweat per square metre and hour: the band and the models in it.</summary>
internal readonly record struct SweatBand(
    double LowGpm2h,
    double TypicalGpm2h,
    double HighGpm2h,
    double CorrectedGpm2h,
    double PiecewiseGpm2h,
    double CoolGpm2h,
    double HeatStrainGpm2h,
    double ComfortGpm2h);
