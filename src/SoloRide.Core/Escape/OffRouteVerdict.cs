namespace SoloRide.Escape;

/// <summary>Whether a position lies on the route, as far as its error tells.</summary>
public enum OffRouteVerdict
{
    /// <summary>Within the corridor.</summary>
    OnRoute,

    /// <summary>Outside the corridor by less than the error of the position: no alarm.</summary>
    Unsure,

    /// <summary>Outside the corridor by more than the error.</summary>
    OffRoute,
}
