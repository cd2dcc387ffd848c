namespace SoloRide.Planning;

/// <summary>Something that the rider checked before the ride, such as access or a fire ban.</summary>
/// <param name="What">What was checked.</param>
/// <param name="On">The day it was checked; not after the plan was made, and not too old for the ride.</param>
public sealed record CheckedItem(string What, DateOnly On);
