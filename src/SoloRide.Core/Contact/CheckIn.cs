namespace SoloRide.Contact;

/// <summary>One message that the contact expects.</summary>
/// <param name="Key">Stable name within the schedule, such as <c>exit-2</c>.</param>
/// <param name="Kind">Why it is sent.</param>
/// <param name="Name">Where, or "by the clock".</param>
/// <param name="Expected">Typical time of sending: of passing, or the first time after it that a message can pass.</param>
/// <param name="Due">When it should have come at the latest; where no message passes, the first time after that it can.</param>
/// <param name="WatchFrom">Due plus grace: from here the contact acts.</param>
/// <param name="CallBy">When nothing has come by then, the contact calls.</param>
/// <param name="CanPass">Whether a message can pass at the place itself.</param>
/// <param name="Place">Where it is sent from, if known.</param>
public sealed record CheckIn(
    string Key, CheckInKind Kind, string Name, DateTimeOffset Expected, DateTimeOffset Due, DateTimeOffset WatchFrom, DateTimeOffset CallBy, Known CanPass, GeoPoint? Place);
