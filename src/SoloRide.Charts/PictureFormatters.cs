using System.Diagnostics.CodeAnalysis;

namespace SoloRide.Charts;

/// <summary>The formatters that a notebook finds through <see cref="TypeFormatterSourceAttribute"/>.</summary>
[SuppressMessage("Performance", "CA1812", Justification = "Made by the notebook.")]
internal sealed class PictureFormatters
{
    public static IEnumerable<object> CreateTypeFormatters() => [new PictureFormatter()];
}
