namespace SoloRide.Batteries;

/// <summary>
/// Proof that nothing better exists for one place in the order: the value reached and an upper bound that prices of bank energy and port hours
/// give. They meet when the allocation is optimal.
/// </summary>
/// <param name="SafetyOrder">Place in the order.</param>
/// <param name="ValueWh">Weighted energy reached [Wh].</param>
/// <param name="BoundWh">No allocation that leaves earlier places as they are can exceed it [Wh].</param>
/// <param name="BankPriceFactor">Worth of one more watt-hour at the port [weighted Wh per Wh].</param>
/// <param name="PortHourPriceWh">Worth of one more hour of the port [weighted Wh].</param>
public sealed record AllocationProof(int SafetyOrder, double ValueWh, double BoundWh, double BankPriceFactor, double PortHourPriceWh)
{
    /// <summary>Whether value and bound meet within 1e-9 of the bound.</summary>
    public bool IsOptimal => Math.Abs(BoundWh - ValueWh) <= 1e-9 * Math.Max(1, Math.Abs(BoundWh));
}
