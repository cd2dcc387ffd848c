namespace SoloRide.Batteries;

/// <summary>What a cell holds back and loses under a load.</summary>
/// <param name="Floor">Share of the full energy that stays behind the cut-off voltage [share of 1].</param>
/// <param name="Efficiency">Delivered over drawn from the store, against the rated conditions [1].</param>
internal readonly record struct CellShare(double Floor, double Efficiency)
{
    /// <summary>Delivered from full to cut-off, as a share of the rated energy.</summary>
    public double Usable => Math.Max(0, 1 - Floor) * Efficiency;
}
