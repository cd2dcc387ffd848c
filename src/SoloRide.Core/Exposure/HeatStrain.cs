using System.Globalization;
using SoloRide.Internal;
using UnitsNet;

namespace SoloRide.Exposure;

/// <summary>Predicted heat strain along a row of conditions: core temperature, sweat and exposure limits, minute by minute.</summary>
/// <remarks>
/// <para>ISO 7933, editions 2004 and 2023. Riding is often outside its range (air below 15 °C, air speed above 3 m/s, metabolic rate above 450 or
/// 250 W/m²): the result is computed and a finding says so. Field accuracy of the model's core temperature: root mean square 0.3 °C [ioannou-2019].</para>
/// <para>Sources: iso-7933-2004, iso-7933-2023. Immutable; safe to share between threads.</para>
/// </remarks>
[Entry]
[TypeFormatterSource(typeof(PlainFormatterSource), PreferredMimeTypes = ["text/html"])]
public sealed record HeatStrain
{
    /// <summary>Spread of the model's core temperature in field studies.</summary>
    [Source("ioannou-2019", "abstract")]
    private const double CoreRmsC = 0.3;

    private readonly HeatStrainMinute[] _minutes;

    private HeatStrain(HeatStrainMinute[] minutes, HeatStrainState start, HeatStrainState end, double lossLimitFactor, IReadOnlyList<Finding> findings)
    {
        _minutes = minutes;
        From = start;
        End = end;
        Findings = findings;
        Minutes = Array.AsReadOnly(_minutes);
        CoreLimit = end.CoreLimitMinute > 0 ? TimeSpan.FromMinutes(end.CoreLimitMinute) : null;
        LossLimit = end.LossLimitMinute > 0 ? TimeSpan.FromMinutes(end.LossLimitMinute * lossLimitFactor) : null;

        // Without water the standard gives the average person no more than the others.
        MeanLossLimit = lossLimitFactor < 1 ? LossLimit : end.MeanLossLimitMinute > 0 ? TimeSpan.FromMinutes(end.MeanLossLimitMinute) : null;
        Duration = TimeSpan.FromMinutes(minutes.Length);
    }

    /// <summary>The state the run began with.</summary>
    public HeatStrainState From { get; }

    /// <summary>The state at the end; hand it in as <c>from</c> to go on.</summary>
    public HeatStrainState End { get; }

    /// <summary>Every minute of this run.</summary>
    public IReadOnlyList<HeatStrainMinute> Minutes { get; }

    /// <summary>Time covered by this run.</summary>
    public TimeSpan Duration { get; }

    /// <summary>Time from the very start until the rectal temperature reaches 38 °C; null when it does not.</summary>
    public TimeSpan? CoreLimit { get; }

    /// <summary>Time from the very start until 95 of 100 persons have lost no more than the allowed share of mass; null when not reached.</summary>
    public TimeSpan? LossLimit { get; }

    /// <summary>The same for the average person.</summary>
    public TimeSpan? MeanLossLimit { get; }

    /// <summary>Water lost since the very start, by sweat and breath.</summary>
    public Mass WaterLoss => Mass.FromGrams(End.LossG);

    /// <summary>Rectal temperature at the end; the range is the model's spread in field studies, not that of a person.</summary>
    public Estimate<Temperature> RectalTemperature => Band(End.RectalC);

    /// <summary>Core temperature at the end.</summary>
    public Estimate<Temperature> CoreTemperature => Band(End.CoreC);

    /// <summary>Mean rate of water loss over this run.</summary>
    public VolumeFlow MeanLossRate => VolumeFlow.FromLitersPerHour((End.LossG - From.LossG) / 1000 / Duration.TotalHours);

    /// <summary>What was assumed, limited or outside the model's range.</summary>
    public IReadOnlyList<Finding> Findings { get; }

    /// <summary>Cautions that go with every rendering.</summary>
    public IReadOnlyList<string> Cautions { get; } = ExposureCautions.Heat;

    /// <summary>Body surface by Du Bois from mass and height.</summary>
    /// <param name="mass">[25 to 250 kg].</param>
    /// <param name="height">[1.0 to 2.5 m].</param>
    /// <returns>The surface.</returns>
    /// <exception cref="ArgumentOutOfRangeException">Mass or height outside its range.</exception>
    public static Area BodyArea(Mass mass, Length height)
        => Area.FromSquareMeters(HeatStrainKernel.BodyAreaM2(
            Guard.InRange(mass.Kilograms, 25, 250, "kg", nameof(mass)), Guard.InRange(height.Meters, 1.0, 2.5, "m", nameof(height))));

    /// <summary>Runs the model over stretches of constant conditions.</summary>
    /// <param name="rider">Mass, height and acclimatisation; 75 kg and 1.80 m stand in for what is not known, with a finding.</param>
    /// <param name="steps">At least one. A minute belongs to the stretch that its middle lies in.</param>
    /// <param name="options">Edition and choices; defaults when null.</param>
    /// <param name="from">Where an earlier run ended; a rested body when null.</param>
    /// <returns>The run.</returns>
    /// <exception cref="ArgumentNullException">Rider or steps are null.</exception>
    /// <exception cref="ArgumentException">No steps, or together shorter than a minute or longer than 30 days.</exception>
    public static HeatStrain Over(Rider rider, IEnumerable<HeatStep> steps, HeatStrainOptions? options = null, HeatStrainState? from = null)
    {
        Guard.NotNull(rider);
        HeatStep[] all = [.. Guard.NotNull(steps)];
        options ??= HeatStrainOptions.Default;
        if (all.Length == 0 || all.Contains(null))
        {
            throw new ArgumentException("At least one step is needed, and none may be null.", nameof(steps));
        }

        double totalMin = all.Sum(s => s.Duration.TotalMinutes);
        int minutes = (int)Math.Round(Math.Min(totalMin, 1e6), MidpointRounding.AwayFromZero);
        if (minutes is < 1 or > 30 * 24 * 60)
        {
            throw new ArgumentException(string.Create(CultureInfo.InvariantCulture, $"The steps last {totalMin} min together; allowed are 1 to {30 * 24 * 60} min."), nameof(steps));
        }

        HeatStrainState start = from ?? HeatStrainState.Start;
        if (!(start.CoreC > 30) || !(start.SkinC > 0) || start.Minute < 0)
        {
            throw new ArgumentException("The state to go on from is not one of a run; use HeatStrainState.Start or the End of a run.", nameof(from));
        }

        var findings = new List<Finding>();
        double massKg = Si.Kg(rider.Mass), heightM = Si.M(rider.Height);
        if (double.IsNaN(massKg) || double.IsNaN(heightM))
        {
            massKg = double.IsNaN(massKg) ? HeatStrainConstants.StandardMassKg : massKg;
            heightM = double.IsNaN(heightM) ? HeatStrainConstants.StandardHeightM : heightM;
            findings.Add(new Finding(ExposureFindingCodes.AssumedBody, FindingSeverity.Note, "rider",
                string.Create(CultureInfo.InvariantCulture, $"Mass or height is not known; {massKg} kg and {heightM} m are used.")));
        }

        if (rider.HeatAcclimatised == Known.Unknown)
        {
            findings.Add(new Finding(ExposureFindingCodes.AcclimatisationUnknown, FindingSeverity.Note, "rider", "Not known to be used to heat; computed as not acclimatised."));
        }

        if (options.Edition == HeatStrainEdition.Iso7933Of2023)
        {
            findings.Add(new Finding(ExposureFindingCodes.EditionHypothesis, FindingSeverity.Caution, "edition 2023", "The 2023 edition is a reading of public data; its text was not seen. Its examples are met to 0.06 C and 0.6 % of the loss."));
        }

        if (Math.Abs(totalMin - minutes) > 1e-6)
        {
            findings.Add(new Finding(ExposureFindingCodes.TimeRounded, FindingSeverity.Note, "steps", string.Create(CultureInfo.InvariantCulture, $"{totalMin:0.##} min are computed as {minutes} whole minutes.")));
        }

        var body = HeatStrainStepper.From(start);
        var trace = new HeatStrainMinute[minutes];
        double stepEnd = 0;
        int done = 0;
        bool limited = false;
        var inputs = new HeatStrainInput[all.Length];
        foreach ((int index, HeatStep step) in all.Index())
        {
            stepEnd += step.Duration.TotalMinutes;
            HeatStrainInput input = Input(step, massKg, heightM, rider.HeatAcclimatised == Known.Yes, options);
            var setup = new HeatStrainSetup(in input);
            limited |= setup.AirSpeedLimited;
            inputs[index] = input;
            bool last = index == all.Length - 1;
            for (; done < minutes && (last || done + 0.5 < stepEnd); done++)
            {
                HeatStrainKernel.Advance(ref body, in setup, 1);
                trace[done] = new HeatStrainMinute(
                    body.State, body.LossGramsPerHour(in setup), setup.MetabolicWPerM2 - setup.WorkWPerM2, setup.BreathDryWPerM2 + setup.BreathWetWPerM2,
                    body.ConvectionWPerM2, body.RadiationWPerM2, body.EvaporationWPerM2, body.StorageWPerM2, body.UnbalancedWPerM2);
            }
        }

        AddRange(findings, all, inputs);
        if (limited)
        {
            findings.Add(new Finding(ExposureFindingCodes.AirSpeedLimited, FindingSeverity.Caution, "air speed",
                "Air speed above 3 m/s, the end of the model's range, counts as 3 m/s: strain and sweat come out higher than real in air cooler than the skin; in hotter air real strain can be higher."));
        }

        double factor = options.WaterIsFree || options.Edition == HeatStrainEdition.Iso7933Of2023 ? 1 : 0.6;
        var result = new HeatStrain(trace, start, body.State, factor, findings.AsReadOnly());
        if (result.CoreLimit is { } core)
        {
            findings.Add(new Finding(ExposureFindingCodes.CoreLimit, FindingSeverity.Warning, "core temperature", $"The predicted rectal temperature reaches 38 C, the standard's limit for work, after {Text.Span(core)}."));
        }

        if (result.LossLimit is { } loss)
        {
            findings.Add(new Finding(ExposureFindingCodes.LossLimit, FindingSeverity.Warning, "water loss", $"The allowed water loss is reached after {Text.Span(loss)} if nothing is drunk."));
        }

        return result;
    }

    /// <summary>One line, then findings and cautions.</summary>
    /// <returns>Text.</returns>
    public override string ToString()
        => Render.Lines(
            $"Heat strain over {Text.Span(Duration)}: rectal {RectalTemperature}, water lost {Text.F(End.LossG / 1000, 2)} L"
            + (CoreLimit is { } c ? $", 38 C after {Text.Span(c)}" : "") + ".",
            Findings, Cautions);

    /// <summary>Equal when the runs end alike and say the same.</summary>
    /// <param name="other">The other run.</param>
    /// <returns>Whether they are equal.</returns>
    public bool Equals(HeatStrain? other)
        => other is not null && From == other.From && End == other.End && _minutes.AsSpan().SequenceEqual(other._minutes) && Findings.SequenceEqual(other.Findings);

    /// <inheritdoc/>
    public override int GetHashCode() => HashCode.Combine(From, End, Minutes.Count);

    internal static HeatStrainInput Input(HeatStep step, double massKg, double heightM, bool acclimatised, HeatStrainOptions options) => HeatStrainInput.Standard with
    {
        Edition = options.Edition,
        AirC = step.AirC,
        RadiantC = step.RadiantC,
        AirSpeedMps = step.AirSpeedMps,
        VapourKpa = HeatStrainInput.VapourFromHumidityKpa(step.AirC, step.RelHumidityPct),
        MetabolicWPerM2 = step.MetabolicWm2,
        WorkWPerM2 = step.WorkWm2,
        ClothingClo = step.ClothingClo,
        Posture = step.Posture,
        WalkMps = step.WalkMps,
        MassKg = massKg,
        HeightM = heightM,
        Acclimatised = acclimatised,
        WaterIsFree = options.WaterIsFree,
        LimitAirSpeed = options.AirSpeedBeyondRange == AirSpeedBeyondRange.CountAsHighest,
    };

    /// <summary>One finding for all steps: what is outside, how far at worst, in how many of them.</summary>
    private static void AddRange(List<Finding> findings, HeatStep[] steps, HeatStrainInput[] inputs)
    {
        bool of2023 = inputs[0].Edition == HeatStrainEdition.Iso7933Of2023;
        var outside = new List<string>();
        Check("air temperature", x => x.AirC, HeatStrainConstants.LowestAirC, HeatStrainConstants.HighestAirC, "C");
        Check("radiant minus air temperature", x => x.RadiantC - x.AirC, 0, HeatStrainConstants.HighestRadiantAboveAirK, "K");
        Check("air speed", x => x.AirSpeedMps, 0, HeatStrainConstants.HighestAirSpeedMps, "m/s");
        Check("clothing", x => x.ClothingClo, HeatStrainConstants.LowestClothingClo, HeatStrainConstants.HighestClothingClo, "clo");
        Check("vapour pressure", x => x.VapourKpa, of2023 ? HeatStrainConstants.LowestVapour2023Kpa : 0, HeatStrainConstants.HighestVapourKpa, "kPa");
        Check("metabolic rate", x => x.MetabolicWPerM2, of2023 ? HeatStrainConstants.LowestMetabolic2023 : HeatStrainConstants.LowestMetabolic2004, of2023 ? HeatStrainConstants.HighestMetabolic2023 : HeatStrainConstants.HighestMetabolic2004, "W/m2");
        if (outside.Count > 0)
        {
            findings.Add(new Finding(ExposureFindingCodes.OutsideRange, FindingSeverity.Caution, "conditions", "Outside the range the model was validated for: " + string.Join("; ", outside) + "."));
        }

        int shade = steps.Count(s => s.MeanRadiantTemperature is null);
        if (shade > 0)
        {
            findings.Add(new Finding(ExposureFindingCodes.RadiantAssumed, FindingSeverity.Note, "radiation",
                string.Create(CultureInfo.InvariantCulture, $"No mean radiant temperature in {shade} of {steps.Length} steps: taken as air temperature, that is full shade.")));
        }

        void Check(string what, Func<HeatStrainInput, double> of, double low, double high, string unit)
        {
            double[] beyond = [.. inputs.Select(of).Where(v => v < low || v > high)];
            if (beyond.Length > 0)
            {
                double least = beyond.Min(), most = beyond.Max();
                string values = least == most ? Text.F(least, 1) : $"{Text.F(least, 1)} to {Text.F(most, 1)}";
                outside.Add(string.Create(CultureInfo.InvariantCulture, $"{what} {values} {unit} in {beyond.Length} of {inputs.Length} steps (range {low} to {high})"));
            }
        }
    }

    private static Estimate<Temperature> Band(double c)
        => Estimate.Of(Temperature.FromDegreesCelsius(c), Temperature.FromDegreesCelsius(c - (NormalKernel.Z90 * CoreRmsC)), Temperature.FromDegreesCelsius(c + (NormalKernel.Z90 * CoreRmsC)));
}
