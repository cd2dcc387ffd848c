using FsCheck.Xunit;
using SoloRide.Hydration;
using UnitsNet;

namespace SoloRide.Tests.Hydration;

public sealed class FilterOrCarryTests
{
    [Fact]
    public void Compare_LongDryRideWithCreeks_TreatsAndSaysHowMuchIsSaved()
    {
        FilterOrCarry r = FilterOrCarryCalculator.Compare(Ride(10), Kit());
        Assert.Equal(WaterSupplyWay.Treat, r.Lighter);
        Assert.True(r.Treat.CarriedKgKm < r.CarryAll.CarriedKgKm);
        Assert.Equal(r.CarryAll.CarriedKgKm - r.Treat.CarriedKgKm, r.SavedKgKm, 1e-9);

        // Carry all: 6 L drunk evenly over 60 km, and half a litre kept back.
        Assert.Equal((6 * 60 / 2.0) + (0.5 * 60), r.CarryAll.CarriedKgKm, 1e-9);

        // Treat: three stretches of 20 km with 2 L each, the reserve, and 0.5 kg of kit.
        Assert.Equal((3 * 2 * 20 / 2.0) + ((0.5 + 0.5) * 60), r.Treat.CarriedKgKm, 1e-9);

        // Two stops of 2 L at 1 L/min, a vessel of 1 L: two fills of 2 min set-up each.
        Assert.Equal(2 * (2 + (2 * 2)), r.Treat.TreatmentTime!.Typical.TotalMinutes, 1e-9);
        Assert.Contains("Treat on the way", r.Words, StringComparison.Ordinal);
    }

    [Fact]
    public void Compare_SmallBottles_OnlyTreatingWorks()
    {
        FilterOrCarry r = FilterOrCarryCalculator.Compare(Ride(3), Kit());
        Assert.False(r.CarryAll.Works);
        Assert.True(r.Treat.Works);
        Assert.Equal(WaterSupplyWay.Treat, r.Lighter);
        Assert.Contains("does not work", r.Words, StringComparison.Ordinal);
    }

    [Fact]
    public void Compare_FilterMayHaveFrozen_CountsAsLostAndNamesTheSecondMethod()
    {
        FilterOrCarry withTablets = FilterOrCarryCalculator.Compare(Ride(3), Kit() with { Lost = Known.Unknown, Second = new WaterTreatment(WaterTreatmentMethod.ChlorineDioxide) });
        Assert.Equal(WaterTreatmentMethod.ChlorineDioxide, withTablets.Treat.Method!.Method);
        Assert.Contains(withTablets.Findings, f => f.Code == HydrationFindingCodes.FilterLost && f.Severity == FindingSeverity.Warning && f.Message.Contains("chlorine dioxide", StringComparison.Ordinal));

        FilterOrCarry without = FilterOrCarryCalculator.Compare(Ride(3), Kit() with { Lost = Known.Yes });
        Assert.Null(without.Lighter);
        Assert.Contains(without.Findings, f => f.Code == HydrationFindingCodes.NoSecondMethod);
    }

    [Property(MaxTest = 30)]
    [Checks(typeof(FilterOrCarryCalculator), CheckKind.Property)]
    public bool Compare_HeavierKit_NeverMakesTreatingLighter(byte grams, byte capacity)
    {
        WaterCarryRequest ride = Ride(3 + (capacity % 8));
        FilterOrCarry light = FilterOrCarryCalculator.Compare(ride, Kit()), heavy = FilterOrCarryCalculator.Compare(ride, Kit() with { Mass = Mass.FromKilograms(0.4 + (grams / 100.0)) });
        return (!light.Treat.Works || heavy.Treat.CarriedKgKm >= light.Treat.CarriedKgKm)
            && (light.Lighter != WaterSupplyWay.CarryAll || heavy.Lighter == WaterSupplyWay.CarryAll);
    }

    [Fact]
    [Checks(typeof(FilterOrCarryCalculator), CheckKind.BadInput)]
    public void Compare_BadInput_ThrowsClearly()
    {
        Assert.Throws<ArgumentNullException>(() => FilterOrCarryCalculator.Compare(Ride(5), null!));
        Assert.Throws<ArgumentNullException>(() => FilterOrCarryCalculator.Compare(null!, Kit()));
        Assert.Throws<ArgumentOutOfRangeException>(() => Kit() with { Mass = Mass.FromKilograms(-1) });
        Assert.Throws<ArgumentOutOfRangeException>(() => Kit() with { VesselVolume = Volume.FromLiters(0) });
    }

    private static TreatmentKit Kit() => new()
    {
        Method = new WaterTreatment(WaterTreatmentMethod.Filter)
        {
            FilterFlow = VolumeFlow.FromLitersPerMinute(1),
            FilterPore = Length.FromMicrometers(0.2),
            SetUp = TimeSpan.FromMinutes(2),
        },
        Mass = Mass.FromKilograms(0.4),
        VesselMass = Mass.FromKilograms(0.1),
        VesselVolume = Volume.FromLiters(1),
    };

    private static WaterCarryRequest Ride(double capacityL) => new()
    {
        Demand = [new WaterDemand(Length.Zero, Length.FromKilometers(60), Estimate.Exact(Volume.FromLiters(6)))],
        Sources =
        [
            new WaterSource { Name = "Slate Creek", AlongRoute = Length.FromKilometers(20), WetProbability = 1 },
            new WaterSource { Name = "Heron Creek", AlongRoute = Length.FromKilometers(40), WetProbability = 1 },
        ],
        Capacity = Volume.FromLiters(capacityL),
    };
}
