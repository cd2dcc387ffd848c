namespace SoloRide.Planning;

/// <summary>How a plan is written out.</summary>
public sealed record PlanTextOptions
{
    /// <summary>Defaults: metric, names as they were given.</summary>
    public static PlanTextOptions Default { get; } = new();

    /// <summary>Units.</summary>
    public MeasureSystem Units { get; init; }

    /// <summary>Whether findings and the full list of assumptions follow the first page.</summary>
    public bool Details { get; init; } = true;

    /// <summary>Whether text and Markdown keep to ASCII, as for a plain printer or an old messenger: letters with marks lose them, other signs become a question mark. What the library itself writes is ASCII anyway.</summary>
    public bool Ascii { get; init; }

    /// <summary>A text as these options ask for it.</summary>
    internal static string Shown(PlanTextOptions? options, string text) => options is { Ascii: true } ? AsciiText.Of(Plain(text)) : Plain(text);

    /// <summary>Control characters and marks that turn the direction of writing come from names alone and are left out; line feeds stay.</summary>
    private static string Plain(string text)
    {
        foreach (char c in text)
        {
            if (Hidden(c))
            {
                return string.Concat(text.Where(x => !Hidden(x)));
            }
        }

        return text;

        static bool Hidden(char c) => (char.IsControl(c) && c != '\n') || c is (>= '\u202A' and <= '\u202E') or (>= '\u2066' and <= '\u2069');
    }
}
