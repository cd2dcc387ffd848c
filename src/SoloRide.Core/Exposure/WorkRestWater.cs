using SoloRide.Internal;
using UnitsNet;

namespace SoloRide.Exposure;

/// <summary>One cell of the army work, rest and water table.</summary>
/// <remarks>
/// For heat-acclimatised soldiers in about four hours of work; over a whole day its water is more than is lost, so it is an upper guide, never a
/// duty to drink. Needs differ by a quarter of a quart an hour between persons and between sun and shade. Source: army-work-rest.
/// </remarks>
public sealed record WorkRestWater
{
    internal WorkRestWater(HeatCategory category, WorkIntensity intensity, int workMinutesPerHour, double waterQtPerHour)
    {
        Category = category;
        Intensity = intensity;
        NoLimit = workMinutesPerHour >= 60;
        WorkPerHour = TimeSpan.FromMinutes(workMinutesPerHour);
        double q = waterQtPerHour;
        Water = Estimate.Of(Flow(q), Flow(q - HeatTableKernel.PersonSpreadQt), Flow(Math.Min(q + HeatTableKernel.PersonSpreadQt, HeatTableKernel.HighestQtPerHour)));
    }

    /// <summary>Heat category.</summary>
    public HeatCategory Category { get; }

    /// <summary>Work.</summary>
    public WorkIntensity Intensity { get; }

    /// <summary>Whether work needs no pauses (up to four hours).</summary>
    public bool NoLimit { get; }

    /// <summary>Work in each hour; the rest is rest in the shade. 60 min where there is no limit.</summary>
    public TimeSpan WorkPerHour { get; }

    /// <summary>Rest in each hour.</summary>
    public TimeSpan RestPerHour => TimeSpan.FromHours(1) - WorkPerHour;

    /// <summary>Water an hour; the range is the table's own spread between persons, cut at its cap of 1.5 quarts an hour.</summary>
    public Estimate<VolumeFlow> Water { get; }

    private static VolumeFlow Flow(double qt) => VolumeFlow.FromLitersPerHour(qt * HeatTableKernel.LitresPerQuart);
}
