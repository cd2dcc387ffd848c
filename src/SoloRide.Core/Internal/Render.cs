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

    /// <summary>Appends words in lines of at most so many columns, ended by line feeds; a longer word stands on a line of its own.</summary>
    public static void Wrap(StringBuilder b, string text, int columns, string first = "", string rest = "")
    {
        b.Append(first);
        int at = first.Length;
        bool begun = false;
        foreach (string word in text.Split(' ', StringSplitOptions.RemoveEmptyEntries))
        {
            if (begun && at + 1 + word.Length > columns)
            {
                b.Append('\n').Append(rest);
                (at, begun) = (rest.Length, false);
            }

            b.Append(begun ? " " : "").Append(word);
            at += (begun ? 1 : 0) + word.Length;
            begun = true;
        }

        b.Append('\n');
    }
}
