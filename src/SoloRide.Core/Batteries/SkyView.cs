namespace SoloRide.Batteries;

/// <summary>How much sky a satellite radio sees.</summary>
public enum SkyView
{
    /// <summary>Open sky.</summary>
    Open,

    /// <summary>Single trees or a light canopy.</summary>
    LightCanopy,

    /// <summary>Dense forest or a canyon.</summary>
    DenseCanopy,
}
