namespace SoloRide.Batteries;

/// <summary>What still works when one device is flat and all others have charge.</summary>
/// <param name="Device">The flat device.</param>
/// <param name="MessageWays">Ways left of sending a message, by name.</param>
/// <param name="DistressCallWays">Ways left of calling for help, by name.</param>
public sealed record FlatDevice(string Device, IReadOnlyList<string> MessageWays, IReadOnlyList<string> DistressCallWays)
{
    /// <summary>Whether a message can still be sent.</summary>
    public bool CanSendMessage => MessageWays.Count > 0;

    /// <summary>Whether a distress call can still be raised.</summary>
    public bool CanCallForHelp => DistressCallWays.Count > 0;
}
