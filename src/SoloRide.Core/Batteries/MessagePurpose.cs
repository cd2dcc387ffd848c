namespace SoloRide.Batteries;

/// <summary>What a way of reaching others is good for.</summary>
public enum MessagePurpose
{
    /// <summary>Words to the person at home.</summary>
    Message,

    /// <summary>A distress call.</summary>
    DistressCall,
}
