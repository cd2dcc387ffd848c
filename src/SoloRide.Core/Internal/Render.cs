using System.Text;

namespace SoloRide.Internal;

/// <summary>Text of a result: its line, its findings, its cautions.</summary>
internal static class Render
{
    public static string Lines(string headline, IReadOnlyList<Finding> findings, IReadOnlyList<string> cautions)
    {
        var text = new StringBuilder(headline);
        foreach (Finding f in findings)
        {
            text.Append('\n').Append(f);
        }

        foreach (string c in cautions)
        {
            text.Append('\n').Append(c);
        }

        return text.ToString();
    }
}
