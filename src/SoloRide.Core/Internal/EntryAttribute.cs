namespace SoloRide.Internal;

/// <summary>
/// Marks a public type that is one job's way in. The tests hold that each has a bad-input test, a property test and,
/// unless <see cref="NoOutsideCheck"/> says why none exists, a check against an outside source.
/// </summary>
[AttributeUsage(AttributeTargets.Class | AttributeTargets.Struct, Inherited = false)]
internal sealed class EntryAttribute : Attribute
{
    /// <summary>Why no outside check exists; empty when one does.</summary>
    public string NoOutsideCheck { get; init; } = "";
}
