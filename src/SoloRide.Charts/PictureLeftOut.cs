namespace SoloRide.Charts;

/// <summary>A picture that could not be made.</summary>
/// <param name="Name">Its name.</param>
/// <param name="Reason">What is missing.</param>
public sealed record PictureLeftOut(string Name, string Reason);
