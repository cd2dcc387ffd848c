using UnitsNet;

namespace SoloRide.Batteries;

/// <summary>Who gets the bank's energy, with the proof that no better sharing exists.</summary>
/// <param name="IsFeasible">False when the minima alone ask for more than the bank or its port can give; then nothing is shared out.</param>
/// <param name="Shares">One for each claim, in the order of the claims; empty when infeasible.</param>
/// <param name="FromPort">Energy taken in all.</param>
/// <param name="Proofs">One for each place in the order of safety.</param>
public sealed record BankAllocation(bool IsFeasible, IReadOnlyList<BankShare> Shares, Energy FromPort, IReadOnlyList<AllocationProof> Proofs)
{
    /// <summary>Whether every place in the order is proved optimal.</summary>
    public bool IsOptimal => IsFeasible && Proofs.All(p => p.IsOptimal);
}
