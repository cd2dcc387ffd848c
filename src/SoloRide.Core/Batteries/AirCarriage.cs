namespace SoloRide.Batteries;

/// <summary>What the usual rules say about a bank in the cabin; the carrier's own rules decide, so check with the carrier.</summary>
public enum AirCarriage
{
    /// <summary>Up to 100 Wh: cabin baggage, terminals protected, never checked in.</summary>
    CarryOn,

    /// <summary>Above 100 to 160 Wh: cabin baggage with the operator's approval, at most two spares.</summary>
    WithApproval,

    /// <summary>Above 160 Wh: not for passengers.</summary>
    Forbidden,
}
