namespace SoloRide.Kit;

/// <summary>How far an inspection goes.</summary>
public enum InspectionForm
{
    /// <summary>Short form, for rides near home.</summary>
    Local,

    /// <summary>Long form, for rides far out.</summary>
    Remote,
}
