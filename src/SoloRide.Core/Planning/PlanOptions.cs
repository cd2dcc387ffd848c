using SoloRide.Escape;
using SoloRide.Internal;
using UnitsNet;

namespace SoloRide.Planning;

/// <summary>How a plan is computed. Margins have names and stand here, never inside a formula.</summary>
public sealed record PlanOptions
{
    /// <summary>Defaults.</summary>
    public static PlanOptions Default { get; } = new();

    /// <summary>Samples over what is uncertain; 0 gives typical values with the spread of a closed form only; up to 1 000 000. 2 000 unless stated.</summary>
    public int Samples { get; init => field = Guard.InRange(value, 0, 1_000_000, "samples", nameof(Samples)); } = 2000;

    /// <summary>Seed of the samples; the same seed gives the same plan.</summary>
    public ulong Seed { get; init; } = 1;

    /// <summary>Threads for the samples, 1 to 64; the result does not depend on it.</summary>
    public int Threads { get; init => field = Guard.InRange(value, 1, 64, "threads", nameof(Threads)); } = 1;

    /// <summary>Confidence for latest start, latest passes and the verdict [share of 1, 0.5 to 0.99]; 0.9 unless stated.</summary>
    public double ConfidenceLevel { get; init => field = Guard.InRange(value, 0.5, 0.99, "(a share of 1)", nameof(ConfidenceLevel)); } = 0.9;

    /// <summary>Length of the steps that times are counted in; 5 to 500 m, 25 m unless stated.</summary>
    public Length StepLength { get; init => field = Length.FromMeters(Guard.InRange(value.Meters, 5, 500, "m", nameof(StepLength))); } = Length.FromMeters(25);

    /// <summary>No stretch between stations is longer than this; 1 to 100 km, 10 km unless stated.</summary>
    public Length StationSpacing { get; init => field = Length.FromMeters(Guard.InRange(value.Meters, 1000, 100_000, "m", nameof(StationSpacing))); } = Length.FromKilometers(10);

    /// <summary>Finish before civil dusk by this much; 30 min unless stated.</summary>
    [Source("assumption-time-reserve")]
    public TimeSpan DaylightReserve { get; init => field = Guard.NotNegative(value, nameof(DaylightReserve)); } = TimeSpan.FromMinutes(30);

    /// <summary>Water kept in hand at every source and at the finish; 0.3 L unless stated.</summary>
    [Source("assumption-water-reserve")]
    public Volume WaterReserve { get; init => field = Volume.FromLiters(Guard.InRange(value.Liters, 0, 10, "L", nameof(WaterReserve))); } = Volume.FromLiters(0.3);

    /// <summary>Share of a device's charge never planned for [share of 1]; 0.2 unless stated.</summary>
    [Source("assumption-charge-reserve")]
    public double ChargeReserveFraction { get; init => field = Guard.InRange(value, 0, 0.9, "(a share of 1)", nameof(ChargeReserveFraction)); } = 0.2;

    /// <summary>Food kept unopened; 400 kcal unless stated.</summary>
    [Source("assumption-food-reserve")]
    public Energy FoodReserve { get; init => field = Energy.FromKilocalories(Guard.InRange(value.Kilocalories, 0, 10_000, "kcal", nameof(FoodReserve))); } = Energy.FromKilocalories(400);

    /// <summary>Planned intake as a share of sweat loss [share of 1, at most 1]; 0.8 unless stated: between thirst alone (about two thirds) and full replacement. Never above loss.</summary>
    [Source("nata-2017", "drinking to thirst replaces about two thirds")]
    [Source("assumption-intake-share")]
    public double IntakeFraction { get; init => field = Guard.Fraction(value, nameof(IntakeFraction)); } = 0.8;

    /// <summary>Chance of running dry that the carry may leave [share of 1]; 0.05 unless stated.</summary>
    public double DryProbability { get; init => field = Guard.InRange(value, 0.001, 0.5, "(a share of 1)", nameof(DryProbability)); } = 0.05;

    /// <summary>Mean time that one incident takes when the rider's log has failures, and that the what-if assumes; 30 min unless stated.</summary>
    [Source("assumption-incident")]
    public TimeSpan IncidentLength { get; init => field = Guard.NotNegative(value, nameof(IncidentLength)); } = TimeSpan.FromMinutes(30);

    /// <summary>Class of response to carry for when the rider cannot move; R3 (24 h) unless stated.</summary>
    public ResponseClass Response { get; init => field = Guard.Defined(value, nameof(Response)); } = WaitingPlanner.DefaultClass;

    /// <summary>Until the contact or the call centre acts on a missed message or a call; 30 min unless stated.</summary>
    [Source("assumption-contact-reaction")]
    public TimeSpan Reaction { get; init => field = Guard.NotNegative(value, nameof(Reaction)); } = TimeSpan.FromMinutes(30);

    /// <summary>Longest time between two planned messages; 3 h unless stated. The plan shortens it when the wait asks for it.</summary>
    [Source("assumption-contact-interval")]
    public TimeSpan MessageInterval { get; init => field = value > TimeSpan.Zero ? value : throw new ArgumentOutOfRangeException(nameof(MessageInterval), value, "MessageInterval must be above zero."); } = TimeSpan.FromHours(3);

    /// <summary>Clothing worn while riding [clo, 0.1 to 4]; 0.4 (short sleeves and shorts) unless stated.</summary>
    public double ClothingClo { get; init => field = Guard.InRange(value, 0.1, 4, "clo", nameof(ClothingClo)); } = 0.4;

    /// <summary>A check of access or permits counts for so long before the ride; 365 days unless stated, 0 to 3 650 days.</summary>
    [Source("assumption-check-age", "access and permits")]
    public TimeSpan AccessCheckAge { get; init => field = TimeSpan.FromDays(Guard.InRange(value.TotalDays, 0, 3650, "days", nameof(AccessCheckAge))); } = TimeSpan.FromDays(365);

    /// <summary>A check of closures, fire bans or season counts for so long before the ride; 60 days unless stated, 0 to 3 650 days.</summary>
    [Source("assumption-check-age", "closures, fire bans, season")]
    public TimeSpan ClosureCheckAge { get; init => field = TimeSpan.FromDays(Guard.InRange(value.TotalDays, 0, 3650, "days", nameof(ClosureCheckAge))); } = TimeSpan.FromDays(60);

    /// <summary>Day of a longer ride: legs, incidents and sources are drawn anew each day, what rider and weather share stays.</summary>
    internal int Day { get; init; }

    /// <summary>Time in motion before the start of this plan, for fatigue: a plan made anew on the way goes on from it.</summary>
    internal TimeSpan MovedBefore { get; init; }

    /// <summary>Multiplier on moving time, as for the slowest of a group.</summary>
    internal double PaceFactor { get; init; } = 1;

    /// <summary>Where all wait for one another [m], and how long.</summary>
    internal IReadOnlyList<double> StopAtM { get; init; } = [];

    internal double StopSec { get; init; }

    /// <summary>Grace after a missed message before silence means something; 60 min unless stated.</summary>
    [Source("assumption-contact-grace")]
    public TimeSpan Grace { get; init => field = Guard.NotNegative(value, nameof(Grace)); } = TimeSpan.FromMinutes(60);
}
