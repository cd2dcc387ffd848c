using SoloRide.Internal;

namespace SoloRide.Planning;

/// <summary>
/// A ride laid out as sections, each with its times, heat and water need: everything that one sample of the coupled state reads.
/// Built once a request and start; immutable while samples run.
/// </summary>
internal sealed record SimulationInput
{
    public required int Sections { get; init; }

    /// <summary>Moving time with no water and food carried [s].</summary>
    public required double[] LightSec { get; init; }

    /// <summary>Moving time with <see cref="ReferenceKg"/> of water and food carried [s].</summary>
    public required double[] LadenSec { get; init; }

    /// <summary>Water and food that the laden times hold for [kg].</summary>
    public required double ReferenceKg { get; init; }

    /// <summary>Surface class, the index of its own pace factor.</summary>
    public required byte[] Class { get; init; }

    /// <summary>Leg between stations, the index of its own noise.</summary>
    public required int[] Leg { get; init; }

    public required int Legs { get; init; }

    /// <summary>Metabolic power in motion [W].</summary>
    public required double[] MetabolicW { get; init; }

    /// <summary>Multiplier on time in the dark, at least 1.</summary>
    public required double[] DarkFactor { get; init; }

    /// <summary>Sweat in motion [L/h] by section and grid time, row by row; and with the air warmer by <see cref="WarmerK"/>.</summary>
    public required double[] SweatLph { get; init; }

    public required double[] SweatWarmLph { get; init; }

    public required double WarmerK { get; init; }

    /// <summary>Clock of the first grid column [s after start; may be negative] and its step [s].</summary>
    public required double GridFromSec { get; init; }

    public required double GridStepSec { get; init; }

    public required int GridCount { get; init; }

    /// <summary>Station reached at the end of a section, or -1.</summary>
    public required int[] StationAt { get; init; }

    public required int Stations { get; init; }

    /// <summary>Planned stop at a station [s], without treating water.</summary>
    public required double[] StationStopSec { get; init; }

    /// <summary>Filling place at a station, or -1.</summary>
    public required int[] SourceAt { get; init; }

    /// <summary>Source of a filling place: a source passed twice is wet or dry both times.</summary>
    public required int[] SourceOf { get; init; }

    /// <summary>Chance that a source holds water.</summary>
    public required double[] WetProbability { get; init; }

    /// <summary>Water in hand after filling at a filling place [L].</summary>
    public required double[] FillToL { get; init; }

    /// <summary>Water that a filling place gives at one visit [L]; infinite when not stated.</summary>
    public double[] MostTakenL { get; init; } = [];

    /// <summary>Time to treat a litre at a filling place [s/L].</summary>
    public required double[] TreatSecPerL { get; init; }

    /// <summary>Water in hand at the start [L].</summary>
    public required double StartWaterL { get; init; }

    /// <summary>Planned intake as a share of sweat.</summary>
    public required double IntakeShare { get; init; }

    /// <summary>Cap on intake [L/h].</summary>
    public required double IntakeCapLph { get; init; }

    /// <summary>Food carried at the start [kg] and its energy [kcal].</summary>
    public required double FoodKg { get; init; }

    public required double FoodKcal { get; init; }

    /// <summary>Energy eaten per hour under way [kcal/h].</summary>
    public required double EatKcalPerHour { get; init; }

    /// <summary>Standing time per hour of moving [s/s].</summary>
    public required double StopShare { get; init; }

    /// <summary>Metabolic power while standing [W].</summary>
    public required double RestW { get; init; }

    /// <summary>Sweat while standing as a share of that in motion.</summary>
    public required double RestSweatShare { get; init; }

    /// <summary>Dark intervals [s after start], begin and end by turns, ascending.</summary>
    public required double[] DarkSec { get; init; }

    /// <summary>Sodium in sweat [mg/L].</summary>
    public required double SodiumMgPerL { get; init; }

    // Spreads, all of natural logarithms unless the name says otherwise.
    public required double SharedSigma { get; init; }

    public required double[] ClassSigma { get; init; }

    /// <summary>Noise of each leg, independent of the others.</summary>
    public required double[] LegSigma { get; init; }

    public required double StopSigma { get; init; }

    /// <summary>How far P90 of the sweat rate lies above the typical one [L/h], by section and grid time.</summary>
    public required double[] SweatAboveLph { get; init; }

    /// <summary>How far P10 lies below it [L/h].</summary>
    public required double[] SweatBelowLph { get; init; }

    public required double SodiumSigma { get; init; }

    /// <summary>Standard deviation of the air temperature's error [K].</summary>
    public required double TemperatureSigmaK { get; init; }

    /// <summary>Expected incidents per ride and their mean length [s]; zero without a log.</summary>
    public required double Incidents { get; init; }

    public required double IncidentMeanSec { get; init; }

    /// <summary>Day of a longer ride, for draws that days do not share.</summary>
    public int Day { get; init; }

    /// <summary>Shift of ln F learned from rides or from today's legs.</summary>
    public double SharedShift { get; init; }

    /// <summary>The same standard deviation at each grid time, growing with the forecast's age [K]; empty when it is constant.</summary>
    public double[] TemperatureSigmaGridK { get; init; } = [];

    /// <summary>Change of sweat for a whole sky of cloud more [L/h] by section and grid time; empty when cloud is not drawn.</summary>
    public double[] SweatCloudLph { get; init; } = [];

    /// <summary>Cloud as forecast at each grid time [share of 1]; empty when cloud is not drawn.</summary>
    public double[] CloudFraction { get; init; } = [];

    /// <summary>Standard deviation of the cloud's error at each grid time [share of 1].</summary>
    public double[] CloudSigma { get; init; } = [];

    /// <summary>Logarithm of the factor on the time of each section when the wind blows one standard deviation stronger than forecast; empty when the wind is not drawn.</summary>
    public double[] WindMoreLog { get; init; } = [];

    /// <summary>The same for one standard deviation weaker: past calm it blows from the other side.</summary>
    public double[] WindLessLog { get; init; } = [];

    /// <summary>Shape of the gamma distribution of the rate of incidents (mean <see cref="Incidents"/>): what the log leaves open, and clustering; 0 for a known rate.</summary>
    public double IncidentShape { get; init; }

    /// <summary>Share of the route's length up to the end of each leg: incidents fall by distance; empty when legs count alike.</summary>
    public double[] LegEndShare { get; init; } = [];

    /// <summary>Seconds of light of the best single lamp at the typical capacity; 0 without one. And the spread of capacity and draw.</summary>
    public double LampSec { get; init; }

    public double LampSigma { get; init; }

    /// <summary>P90 over and P10 under the typical sweat rate, as shares of it, over the whole table.</summary>
    public (double Over, double Under) SweatHalves()
    {
        double typical = SweatLph.Sum();
        return typical > 0 ? (SweatAboveLph.Sum() / typical, Math.Min(0.95, SweatBelowLph.Sum() / typical)) : (0, 0);
    }

    /// <summary>Standard deviation of the logarithm of sweat on one side of its typical value, for closed forms.</summary>
    /// <param name="side">1 above, -1 below.</param>
    public double SweatLogSd(int side)
    {
        (double over, double under) = SweatHalves();
        return (side > 0 ? Math.Log(1 + over) : -Math.Log(1 - under)) / NormalKernel.Z90;
    }

    /// <summary>Standard deviation of sweat as a share of the typical rate, the mean of both sides; above zero.</summary>
    public double SweatSd()
    {
        (double over, double under) = SweatHalves();
        return Math.Max(1e-9, (over + under) / 2 / NormalKernel.Z90);
    }
}
