using SoloRide.Internal;

namespace SoloRide.Planning;

/// <summary>Carbohydrate advice by duration, and the food that follows.</summary>
/// <param name="LowGPerHour">[g/h]</param>
/// <param name="HighGPerHour">[g/h]</param>
internal readonly record struct FuelPlan(double LowGPerHour, double HighGPerHour)
{
    [Source("assumption-food-density", "mixed trail food, kcal per kg")]
    public const double KcalPerKg = 3900;

    [Source("atwater", "carbohydrate 4 kcal/g")]
    private const double KcalPerG = 4;

    /// <summary>Food energy eaten each hour: the middle of the advised band as carbohydrate.</summary>
    public double KcalPerHour => KcalPerG * (LowGPerHour + HighGPerHour) / 2;

    /// <summary>By hours under way: none needed under an hour, 30 to 60 g/h up to two and a half hours, 60 to 90 g/h beyond.</summary>
    [Source("acsm-2016", "carbohydrate during exercise")]
    public static FuelPlan For(double hours) => hours < 1 ? new(0, 30) : hours <= 2.5 ? new(30, 60) : new(60, 90);
}
