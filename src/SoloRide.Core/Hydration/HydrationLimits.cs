using SoloRide.Internal;

namespace SoloRide.Hydration;

/// <summary>Published limits of drinking and losing.</summary>
internal static class HydrationLimits
{
    [Source("us-customary", "1 US quart in litres")]
    public const double LitresPerQuart = 0.946352946;

    [Source("us-customary", "1 US fluid ounce in litres")]
    public const double LitresPerOunce = LitresPerQuart / 32;

    [Source("army-fluid-guide", "1.5 quarts an hour, published rule WT4")]
    [Source("niosh-2017-126", "48 ounces an hour")]
    public const double HourlyMaximumL = 1.5 * LitresPerQuart;

    [Source("army-fluid-guide", "12 quarts a day, published rule WT4")]
    public const double DailyMaximumL = 12 * LitresPerQuart;

    [Source("army-fluid-guide", "from person to person, a quarter quart an hour")]
    public const double PersonVariationLph = 0.25 * LitresPerQuart;

    [Source("army-fluid-guide", "full sun or full shade, a quarter quart an hour")]
    public const double SunVariationLph = 0.25 * LitresPerQuart;

    [Source("army-fluid-guide", "sustains at least 4 hours; longer it over-prescribes")]
    public const double TableValidH = 4;

    [Source("army-fluid-guide", "body armour, 5 F on the WBGT")]
    public const double ArmourF = 5;

    [Source("dri-2005", "greatest excretion of the kidneys, L/h")]
    public const double KidneyLeastLph = 0.7, KidneyMostLph = 1.0;

    [Source("dri-2005", "adequate intake of water, food included, L/day")]
    public const double AdequateMenL = 3.7, AdequateWomenL = 2.7;

    [Source("dri-2005", "of which drunk, L/day")]
    public const double DrunkMenL = 3.0, DrunkWomenL = 2.2;

    [Source("niosh-2017-126", "8 ounces every 15 to 20 minutes")]
    public const double WorkDrinkLeastLph = 24 * LitresPerOunce, WorkDrinkMostLph = 32 * LitresPerOunce;

    [Source("acsm-2007", "mass loss kept within 2 %, share")]
    public const double DeficitFraction = 0.02;

    [Source("acsm-2007", "never a gain of mass by drinking")]
    public const double GainFraction = 0;

    [Source("acsm-2007", "drink during exercise: sodium and potassium mmol/L, carbohydrate g/L, carbohydrate g/h")]
    public const double DrinkSodiumLeastMmolPerL = 20, DrinkSodiumMostMmolPerL = 30,
        DrinkPotassiumLeastMmolPerL = 2, DrinkPotassiumMostMmolPerL = 5,
        CarbohydrateLeastGPerL = 50, CarbohydrateMostGPerL = 100,
        CarbohydrateLeastGPerH = 30, CarbohydrateMostGPerH = 60;

    [Source("iupac-atomic-weights", "potassium, rounded as the drink figures are")]
    public const double PotassiumGPerMol = 39.10;

    [Source("eah-2015", "exercise-associated low blood sodium, mmol/L")]
    public const double LowSerumSodiumMmolPerL = 135;

    [Source("nata-2017", "thirst replaces about two thirds of sweat")]
    public const double ThirstFraction = 2.0 / 3;

    [Source("nata-2017", "usual range of body water, +1 %")]
    public const double UsualGainFraction = 0.01;
}
