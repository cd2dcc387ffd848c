namespace SoloRide.Batteries;

/// <summary>What comes out of a full cell under a load, as two shares that both fall when it gets colder, the load grows or the cut-off rises.</summary>
/// <param name="Open">Taken from the store between full and cut-off [share of the full store].</param>
/// <param name="Delivered">Reaches the circuits between full and cut-off [share of the rated energy].</param>
/// <remarks>
/// From a state of charge s comes (s - Floor)·Efficiency = Delivered - (1 - s)·Delivered/Open. As long as neither share grows, that does not grow
/// either, whichever way the efficiency goes; linear interpolation of the two shares keeps the property.
/// </remarks>
internal readonly record struct CellShare(double Open, double Delivered)
{
    /// <summary>Share of the full store that stays behind the cut-off.</summary>
    public double Floor => 1 - Open;

    /// <summary>Delivered over drawn from the store, against the rated conditions [1].</summary>
    public double Efficiency => Delivered > 0 ? Delivered / Open : 1;
}
