using SoloRide.Internal;

namespace SoloRide.Routes;

/// <summary>That a trail is closed: why, by information of which date, and from when it is open again.</summary>
/// <remarks>Immutable.</remarks>
public sealed record TrailClosure
{
    /// <summary>Why, in the words of the data.</summary>
    public required string Reason { get; init => field = Guard.NotEmpty(value, nameof(Reason)); }

    /// <summary>Date of the information; null when the data give none.</summary>
    public DateOnly? InformationDate { get; init; }

    /// <summary>First day on which it is open again; null when that is unknown.</summary>
    public DateOnly? OpensOn { get; init; }

    /// <summary>Whether it holds on a day; without a day it holds.</summary>
    /// <param name="day">The day; null when it is not known.</param>
    /// <returns>True unless the trail is stated to be open again by then.</returns>
    public bool HoldsOn(DateOnly? day) => !(day is { } d && OpensOn is { } open && d >= open);

    /// <summary>Reason and dates.</summary>
    /// <returns>Text.</returns>
    public override string ToString()
        => Reason + (InformationDate is { } i ? $", information of {Text.Day(i)}" : ", information without a date") + (OpensOn is { } o ? $", open again from {Text.Day(o)}" : "");
}
