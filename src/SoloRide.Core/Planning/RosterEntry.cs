using SoloRide.Internal;

namespace SoloRide.Planning;

/// <summary>One person of a group, as the leader's sheet needs it. Only the name is needed.</summary>
/// <remarks>Immutable; nothing is stored or sent. Everything but name, role and bike is personal and is printed only when asked for.</remarks>
public sealed record RosterEntry
{
    /// <summary>Makes an entry.</summary>
    /// <param name="name">Name.</param>
    /// <exception cref="ArgumentException">The name is empty.</exception>
    public RosterEntry(string name) => Name = Guard.NotEmpty(name);

    /// <summary>Name.</summary>
    public string Name { get; }

    /// <summary>Whether this one leads or rides last.</summary>
    public bool IsLeader { get; init; }

    /// <summary>What to know of the bike: wheel size, valve, brakes.</summary>
    public string Bike { get; init => field = Guard.NotNull(value, nameof(Bike)); } = "";

    /// <summary>Own telephone. Personal.</summary>
    public string Phone { get; init => field = Guard.NotNull(value, nameof(Phone)); } = "";

    /// <summary>Person to call for this one, and the number. Personal.</summary>
    public string Contact { get; init => field = Guard.NotNull(value, nameof(Contact)); } = "";

    /// <summary>What a helper should know: allergies, medicines, conditions. Medical.</summary>
    public string Medical { get; init => field = Guard.NotNull(value, nameof(Medical)); } = "";
}
