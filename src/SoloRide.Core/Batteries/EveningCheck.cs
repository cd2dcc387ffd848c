namespace SoloRide.Batteries;

/// <summary>One line of the list for the evening before.</summary>
/// <param name="Action">What kind of task.</param>
/// <param name="Subject">Device, bank or beacon.</param>
/// <param name="Text">What to do and why, in words.</param>
public sealed record EveningCheck(EveningAction Action, string Subject, string Text);
