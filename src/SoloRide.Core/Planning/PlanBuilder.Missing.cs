using SoloRide.Batteries;
using SoloRide.Effort;
using SoloRide.Exposure;
using SoloRide.Hydration;
using SoloRide.Internal;
using UnitsNet;

namespace SoloRide.Planning;

/// <content>What was not given, what stands in for it, and what knowing it would be worth.</content>
internal sealed partial class PlanBuilder
{
    private const string FinishOutcome = "finish", WaterOutcome = "water drunk", SodiumOutcome = "sodium";

    private List<OutcomeDrivers> DriversOfAll() => _spread.Samples == 0 ? [] :
    [
        new(FinishOutcome, _spread.Drivers(_course.Stations.Count - 2)),
        new("time in the dark", _spread.Drivers(SpreadOf.Dark)),
        new("sweat", _spread.Drivers(SpreadOf.Sweat)),
        new(WaterOutcome, _spread.Drivers(SpreadOf.Drunk)),
        new("least water in hand", _spread.DriversOfLeastWater()),
        new("energy", _spread.Drivers(SpreadOf.Kcal)),
        new(SodiumOutcome, _spread.Drivers(SpreadOf.Sodium)),
        .. _spread.Input.LampSec > 0 ? [new OutcomeDrivers("lamp light left", _spread.DriversOfLamp())] : Array.Empty<OutcomeDrivers>(),
    ];

    private List<MissingInput> MissingInputs(IReadOnlyList<OutcomeDrivers> drivers)
    {
        var missing = new List<MissingInput>();
        Rider rider = _request.Rider;
        PaceOptions pace = _request.Pace;
        var bareLoad = new Load();
        double shared = _model.Input.SharedSigma, effort = _model.Pace.Effort.LogSd;
        if (_model.Pace.Effort.Basis == EffortBasis.Prior)
        {
            // The part of the shared spread that the prior of effort makes, and what a stated climbing rate would leave of it.
            double stated = PaceModel.For(rider with { ClimbingRate = Speed.FromMetersPerSecond(0.2) }, _request.Bike, _request.Load, pace).Effort.LogSd;
            double ride = _model.Pace.RideLogSd, own = Math.Max(0, (shared * shared) - (ride * ride)), left = own * stated * stated / (effort * effort);
            Add("sustained effort", $"{Text.F(_model.Pace.Effort.PowerW, 0)} W, {Text.F((Math.Exp(effort) - 1) * 100, 0)} % up or down", "a climbing rate or one timed ride narrows every arrival",
                FinishOutcome, Share(FinishOutcome, SimulationKernel.DrawShared) * (own - left) / (shared * shared));
        }

        if (pace.Calibration is null)
        {
            double all = Share(FinishOutcome, SimulationKernel.DrawClasses) + Share(FinishOutcome, SimulationKernel.DrawStops) + Share(FinishOutcome, SimulationKernel.DrawLegs)
                + (Share(FinishOutcome, SimulationKernel.DrawShared) * _model.Pace.RideLogSd * _model.Pace.RideLogSd / Math.Max(1e-9, shared * shared));
            Add("own timed rides", "assumed pace on each ground, stops and spread from day to day", "they replace all of these; at most this share would go", FinishOutcome, all);
        }

        if (_request.Weather is null)
        {
            double best = WeatherAlong.BestTemperatureSigmaK / _model.Weather.TemperatureSigmaK;
            Add("forecast", $"{Text.F(WeatherAlong.AssumedAirC, 0)} C, {Text.F(WeatherAlong.AssumedHumidityPct, 0)} %, light air, clear sky; {Text.F(_model.Weather.TemperatureSigmaK, 0)} K up or down",
                "it narrows water, and heat, cold, wind, ice and storms are judged", WaterOutcome, Share(WaterOutcome, SimulationKernel.DrawTemperature) * (1 - (best * best)));
        }

        if (rider.Mass is null)
        {
            double body = RideModel.BodySweatSigma / _model.Input.SweatSd();
            Add("body mass", "75 kg, a sixth up or down", "it narrows sweat and sets food and effort", WaterOutcome,
                Share(WaterOutcome, SimulationKernel.DrawSweat) * Math.Min(1, body * body));
        }

        if (rider.SweatRate is null && _request.Sweat is null)
        {
            double own = Math.Log(1 + SweatConstants.OwnRateSpreadFraction) / NormalKernel.Z90 / _model.Input.SweatSd();
            Add("weighed rides", "sweat by published equations", "a few rides weighed before and after narrow the water to carry", WaterOutcome,
                Share(WaterOutcome, SimulationKernel.DrawSweat) * Math.Max(0, 1 - (own * own)));
        }

        if (rider.SweatSodiumMmolPerL is null)
        {
            Add("sodium of sweat", $"{Text.F(_model.Input.SodiumMgPerL, 0)} mg/L, published spread between persons", "a sweat test narrows the salt", SodiumOutcome, Share(SodiumOutcome, SimulationKernel.DrawSodium));
        }

        if (_request.FailureRates.Count == 0)
        {
            Add("log of breakdowns", "no incident is drawn; one is shown as a what-if", "arrivals get their late tail, and the choice of kit its weights");
        }

        string[] unknown = [.. _request.Sources.Where(s => s.WetProbability is null).Select(s => s.Name)];
        if (_request.Sources.Count == 0)
        {
            Add("sources of water", "none: everything is carried from the start", "each sure source takes water off the start");
        }
        else if (unknown.Length > 0)
        {
            Add("chance of water at " + string.Join(", ", unknown), "taken as dry", "a report takes water off the start");
        }

        AddIf(_request.Exits.Count == 0, "ways out", _request.EndsAreExits ? "start and finish alone" : "none", "the walk out, spares and wait shorten where one is nearer");
        AddIf(_request.Devices.Count == 0, "lamps and devices", "none: light by lamp and charge are left out", "the end of lamp light replaces dusk as the clock");
        AddIf(_request.Devices.Count > 0 && !_request.Devices.Any(d => d.Kind is DeviceKind.HeadLamp or DeviceKind.BarLamp), "lamp", "none: dusk ends the ride", "the end of lamp light replaces dusk as the clock");
        AddIf(_request.Load.WaterCapacity.Equals(bareLoad.WaterCapacity, Volume.FromLiters(1e-9)), "room for water", $"{Text.F(bareLoad.WaterCapacity.Liters, 1)} L of bottles", "how much can be carried between sources, and whether the ride can be made at all");
        AddIf(_request.Load with { WaterCapacity = bareLoad.WaterCapacity } == bareLoad, "mass carried", $"{Text.F(bareLoad.OnBody.Kilograms, 0)} kg on the body, {Text.F(bareLoad.OnBike.Kilograms, 0)} kg on the bike", "effort and time uphill");
        AddIf(_request.Bike == new Bike(), "bike", $"{Text.F(new Bike().Mass.Kilograms, 0)} kg, usual tyres and drag, no assist", "effort and time");
        AddIf(_request.Treatment is null && _request.Sources.Count > 0, "treatment of water", "no time for it", "each fill takes longer");
        AddIf(rider.Height is null, "height", $"{Text.F(HeatStrainConstants.StandardHeightM, 2)} m", "area of skin, and with it heat strain");
        AddIf(rider.AgeYears is null, "age", "no loss of effort by age", _model.Pace.Effort.Basis == EffortBasis.Prior ? "it shifts the effort that stands in" : "resting energy");
        AddIf(rider.MaxOxygenUptakeMlPerKgMin is null, "oxygen uptake", "group means", "what effort can be kept, at height above all");
        AddIf(rider.HeatAcclimatised == Known.Unknown, "acclimatised to heat", "taken as not", "sweat, its salt, and heat strain");
        AddIf(rider.AltitudeAcclimatised == Known.Unknown && PlaceOf(Top()).ElevationM > AltitudeMattersM, "acclimatised to height", "taken as not known", "how the body takes the height");
        AddIf(_request.Options.ClothingClo == PlanOptions.Default.ClothingClo, "riding clothing", $"short sleeves and shorts, {Text.F(PlanOptions.Default.ClothingClo, 1)} clo", "heat, sweat and cold while riding");
        AddIf(_course.Steps.Any(x => x is { Surface: TrailSurface.Unknown, Difficulty: TrailDifficulty.Unknown }), "surface and difficulty", "trail of a middle kind where the route does not say", "pace on each stretch");
        AddIf(_request.Beacon is null, "distress beacon", "none", "how soon help knows");
        AddIf(_request.Bank is null && _request.Devices.Count > 0, "power bank", "none", "how long devices last");
        AddIf(_request.FireAllowed == Known.Unknown, "open fire", "taken as not allowed", "whether a fire lighter serves");
        AddIf(_request.WaitingOutfit is null, "clothing for a wait", "the cold limit of the wait is left out", "how long one can lie still");
        AddIf(_request.KitItems.Count == 0, "kit", "spares are left out", "which spares to take");
        AddIf(_request.Ways.Count == 0 && _request.Devices.Count == 0 && _request.Beacon is null, "means of calling", "none", "how soon help knows");
        AddIf(_request.Zone is null, "zone", $"{Text.Offset(_request.Start.Offset)} throughout", "times after a change of the clock");
        AddIf(_request.PreparedAt is null, "instant of preparation", "the forecast's own issue", "the age of the forecast, and what is past");
        AddIf(_model.Sun is null, "skyline or terrain", "a free horizon", "where shade makes cold and ice, where sun makes heat");
        return [.. missing.OrderByDescending(m => double.IsNaN(m.ShareFraction) ? -1 : m.ShareFraction)];

        void Add(string name, string standIn, string effect, string outcome = "", double share = double.NaN)
            => missing.Add(new MissingInput(name, standIn, effect, outcome, double.IsNaN(share) ? double.NaN : Math.Clamp(share, 0, 1)));

        void AddIf(bool when, string name, string standIn, string effect)
        {
            if (when)
            {
                Add(name, standIn, effect);
            }
        }

        double Share(string outcome, int draw)
        {
            string name = ArrivalSpread.NameOf(draw);
            return drivers.Where(d => d.Outcome == outcome).SelectMany(d => d.Drivers).Where(d => d.Name == name).Select(d => d.ShareFraction).DefaultIfEmpty(double.NaN).First();
        }
    }
}
