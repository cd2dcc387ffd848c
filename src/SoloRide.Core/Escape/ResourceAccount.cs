using SoloRide.Internal;

namespace SoloRide.Escape;

/// <summary>What the rider has of one resource at the start of the route, what must be left at the end, and where it can be filled up again.</summary>
/// <remarks>Immutable.</remarks>
public sealed record ResourceAccount
{
    /// <summary>Makes an account.</summary>
    /// <param name="available">What is carried at the start; a refill brings the account back to <see cref="Capacity"/>.</param>
    /// <param name="reserve">What must be left on reaching the exit; the same kind.</param>
    /// <exception cref="ArgumentException">Different kinds.</exception>
    public ResourceAccount(ResourceAmount available, ResourceAmount reserve)
    {
        if (available.Kind != reserve.Kind)
        {
            throw new ArgumentException($"The reserve is {reserve.Kind}, the account {available.Kind}; they must be the same.", nameof(reserve));
        }

        Available = available;
        Reserve = reserve;
        Capacity = available;
    }

    /// <summary>What it is.</summary>
    public ResourceKind Kind => Available.Kind;

    /// <summary>Carried at the start.</summary>
    public ResourceAmount Available { get; }

    /// <summary>The named margin: to be left on reaching the exit.</summary>
    public ResourceAmount Reserve { get; }

    /// <summary>What a refill brings the account to; the amount at the start unless said otherwise.</summary>
    public ResourceAmount Capacity
    {
        get;
        init => field = value.Kind == Available.Kind ? value : throw new ArgumentException($"The capacity is {value.Kind}, the account {Available.Kind}.", nameof(Capacity));
    }

    /// <summary>
    /// Own account of use along the route, in place of a constant rate, for points of no return; null: rates are used. Without it a rate for each
    /// mode is needed.
    /// </summary>
    public ResourceLedger? Ledger
    {
        get;
        init => field = value is null || value.Kind == Available.Kind ? value : throw new ArgumentException($"The ledger is {value.Kind}, the account {Available.Kind}.", nameof(Ledger));
    }

    /// <summary>Sources on the way, in any order; each counts by its chance. Chance unknown: dry.</summary>
    public IReadOnlyList<WaterSource> Refills { get; init => field = [.. Guard.NotNull(value, nameof(Refills))]; } = [];
}
