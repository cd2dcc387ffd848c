namespace SoloRide.Routes;

/// <summary>How far a batch is.</summary>
/// <param name="Done">Files worked through.</param>
/// <param name="Total">Files in all.</param>
/// <param name="Path">The file just finished.</param>
public sealed record BatchProgress(int Done, int Total, string Path);
