using SoloRide.Internal;

namespace SoloRide.Batteries;

/// <summary>Figures of the batteries room; each with its source.</summary>
internal static class BatteriesConstants
{
    [Source("assumption-lamp-efficacy", "whole trail lamp 70 to 150 lm/W, falling with current")]
    public const double LampEfficacyLowLmPerW = 70;

    [Source("assumption-lamp-efficacy")]
    public const double LampEfficacyTypicalLmPerW = 100;

    [Source("assumption-lamp-efficacy")]
    public const double LampEfficacyHighLmPerW = 150;

    /// <summary>Highest efficacy believed when a printed runtime is checked.</summary>
    [Source("led-efficacy-target", "package targets near 200 lm/W")]
    public const double LampEfficacyCeilingLmPerW = 200;

    /// <summary>P10 to P90 half-width of a power that the user measured [share].</summary>
    [Source("assumption-power-ranges")]
    public const double MeasuredPowerSpread = 0.05;

    [Source("printed-capacity-honesty", "better 18650 cells deliver 92.5 % of the printed capacity")]
    public const double HonestFraction = 0.925;

    [Source("assumption-self-discharge", "lithium-ion 2 to 3 % a month")]
    public const double SelfDischargeLithiumPerMonth = 0.025;

    [Source("assumption-self-discharge", "nickel-metal hydride 30 % a month")]
    public const double SelfDischargeNickelMetalHydridePerMonth = 0.30;

    [Source("assumption-self-discharge", "primary lithium 10 % in 5 years")]
    public const double SelfDischargePrimaryLithiumPerMonth = 0.0018;

    [Source("assumption-self-discharge", "alkaline, about 3 % a year; no anchor")]
    public const double SelfDischargeAlkalinePerMonth = 0.0025;

    [Source("julian-year", "365.25 days / 12")]
    public const double DaysPerMonth = 30.4375;

    [Source("assumption-cell-temperature", "temperature beside the skin")]
    public const double BodySideC = 32;

    [Source("assumption-cell-temperature", "share of the way from air to body: bag on the back")]
    public const double PackShare = 0.15;

    [Source("assumption-cell-temperature", "share of the way from air to body: inner pocket")]
    public const double PocketShare = 0.6;

    /// <summary>How fast wind takes the warmth of a pocket away [per m/s].</summary>
    [Source("assumption-cell-temperature")]
    public const double WindPerMps = 0.03;

    [Source("assumption-reserve", "20 % of the usable energy is kept back")]
    public const double ReserveFraction = 0.2;

    /// <summary>Lowest cell temperature at which a lithium-ion cell may be charged [°C].</summary>
    [Source("cell-sheet-charging", "no charging below 0 °C; 0 to 5 °C at 0.1C, 5 to 15 °C at 0.2C")]
    public const double ChargeFloorC = 0;

    [Source("usb-current-levels", "bus voltage")]
    public const double UsbV = 5;


    /// <summary>Standard deviation of a charge gauge [share of full].</summary>
    [Source("assumption-gauge")]
    public const double GaugeSpread = 0.02;

    [Source("assumption-sky-view", "open sky")]
    public const double OpenSkyProbability = 0.95;

    [Source("assumption-sky-view", "light canopy")]
    public const double LightCanopyProbability = 0.6;

    [Source("assumption-sky-view", "dense canopy or canyon")]
    public const double DenseCanopyProbability = 0.25;

    /// <summary>Draw of one attempt to send, unless the messenger has a mode for it [W].</summary>
    [Source("assumption-message", "1.5 W for 20 s, 60 s wait, at most 10 attempts")]
    public const double MessageAttemptW = 1.5;

    [Source("assumption-message")]
    public const double MessageAttemptS = 20;

    [Source("assumption-message")]
    public const double MessageWaitS = 60;

    [Source("assumption-message")]
    public const int MessageAttempts = 10;

    /// <summary>After this long a device counts as lasting [h].</summary>
    [Source("assumption-horizon", "30 days")]
    public const double HorizonH = 720;

    /// <summary>Start charge of a device that nobody charged [share].</summary>
    [Source("assumption-forgotten-charge")]
    public const double ForgottenFraction = 0.35;

    /// <summary>A device that lasts with at least this chance needs no remedy [share of 1].</summary>
    [Source("assumption-remedy", "95 %")]
    public const double RemedyBelow = 0.95;

    /// <summary>A device gets on the bank when this share of its pack has room, or all it is due [share].</summary>
    [Source("assumption-top-up-room")]
    public const double TopUpRoom = 0.3;

    /// <summary>Share of the cable's power that reaches the cell.</summary>
    [Source("assumption-charging-efficiency", "charger")]
    public const double ChargerEfficiency = 0.87;

    /// <summary>Mean voltage while charging over the nominal voltage.</summary>
    [Source("assumption-charge-voltage", "3.8 V over 3.7 V")]
    public const double ChargeOverNominalV = 1.03;

    /// <summary>Current at which charging ends [C].</summary>
    [Source("kollmeyer-2018", "50 mA on 2.9 Ah")]
    public const double ChargeCutRate = 0.0172;

    /// <summary>P10 to P90 half-width of a charging time [share].</summary>
    [Source("assumption-charge-spread", "mean error 5 %, worst 14 % on one cell; other chargers differ")]
    public const double ChargeTimeSpread = 0.15;
}
