namespace SoloRide.Hydration;

/// <summary>A published way to the sweat rate.</summary>
public enum SweatModel
{
    /// <summary>Corrected equation, Gonzalez et al. 2009.</summary>
    Corrected,

    /// <summary>Piecewise equation, Gonzalez et al. 2009; in sun the regression of 2012.</summary>
    Piecewise,

    /// <summary>Piecewise equation for cool weather, Gonzalez et al. 2009; kept in the band at every temperature, so that nothing jumps at 20 °C.</summary>
    PiecewiseCool,

    /// <summary>Predicted heat strain, ISO 7933.</summary>
    HeatStrain,

    /// <summary>Sweating of people who dress so as to feel comfortable, Fanger 1970: what is left where the equations for heat give nothing.</summary>
    Comfort,

    /// <summary>The rider's own rate from weighed rides.</summary>
    OwnRate,
}
