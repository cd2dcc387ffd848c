namespace SoloRide.Batteries;

/// <summary>One course of events for <see cref="PowerKernel"/>: stretches of time and the draws of the sample.</summary>
internal ref struct PowerRun
{
    /// <summary>[h] Length of each stretch.</summary>
    public ReadOnlySpan<double> Hours;

    /// <summary>[°C] Air in each stretch.</summary>
    public ReadOnlySpan<double> AirC;

    /// <summary>[1] What the wind leaves of a pocket's warmth in each stretch; empty: 1.</summary>
    public ReadOnlySpan<double> WindShare;

    /// <summary>[stretch * devices + device] Mode, -1 for off.</summary>
    public ReadOnlySpan<sbyte> Mode;

    /// <summary>[W, stretch * devices + device] Draw besides the mode's, such as messages; empty: none.</summary>
    public ReadOnlySpan<double> ExtraW;

    /// <summary>[W at the bank's port, stretch * devices + device] What the device takes when it hangs on the bank; empty: no bank.</summary>
    public ReadOnlySpan<double> PortW;

    /// <summary>[Wh, device] Energy of a full pack in this sample.</summary>
    public ReadOnlySpan<double> FullWh;

    /// <summary>[W, device * MaxModes + mode] Draws in this sample.</summary>
    public ReadOnlySpan<double> LoadW;

    /// <summary>Devices to run; empty: all. The others keep their state, and must not hang on the bank.</summary>
    public ReadOnlySpan<int> Only;

    /// <summary>[K] Error of the air temperature in this sample.</summary>
    public double AirOffsetC;
}
