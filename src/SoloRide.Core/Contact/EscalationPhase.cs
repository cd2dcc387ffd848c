namespace SoloRide.Contact;

/// <summary>How serious silence has become.</summary>
public enum EscalationPhase
{
    /// <summary>A message is late.</summary>
    Watch,

    /// <summary>The rider is overdue, or a second message is missing.</summary>
    Uncertainty,

    /// <summary>Call the agency.</summary>
    Alert,

    /// <summary>A call for help came, or there is evidence: call at once.</summary>
    Distress,
}
