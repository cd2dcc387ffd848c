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

    /// <summary>Appends words in lines of at most so many columns, ended by line feeds. A number stays with its unit; a word wider than a line goes on in the next.</summary>
    /// <param name="b">Receives the lines.</param>
    /// <param name="text">The words.</param>
    /// <param name="columns">Width.</param>
    /// <param name="first">Stands before the first line.</param>
    /// <param name="rest">Stands before the others.</param>
    public static void Wrap(StringBuilder b, string text, int columns, string first = "", string rest = "")
    {
        var line = new StringBuilder(first);
        bool begun = false;
        foreach (string word in Pieces(text, columns - Math.Max(first.Length, rest.Length)))
        {
            if (begun && line.Length + 1 + word.Length > columns)
            {
                b.Append(line.ToString().TrimEnd()).Append('\n');
                line.Clear().Append(rest);
                begun = false;
            }

            line.Append(begun ? " " : "").Append(word);
            begun = true;
        }

        b.Append(line.ToString().TrimEnd()).Append('\n');
    }

    /// <summary>The words of a text, those wider than a line in pieces.</summary>
    private static IEnumerable<string> Pieces(string text, int width)
    {
        foreach (string word in Words(text))
        {
            // What only stays together by custom may part before a word is broken.
            foreach (string part in word.Length > width ? word.Split(' ') : [word])
            {
                int from = 0;
                while (part.Length - from > width)
                {
                    int end = from + width - (char.IsHighSurrogate(part[from + width - 1]) ? 1 : 0);
                    yield return part[from..end];
                    from = end;
                }

                yield return part[from..];
            }
        }
    }

    private static readonly string[] Units = ["h", "min", "L", "qt", "km", "mi", "m", "ft", "C", "F", "g", "mg", "kg", "lb", "kcal", "Wh", "W", "%", "W/m2"];

    /// <summary>The words of a text; a number stays with its unit, with its thousands and with the km before it.</summary>
    private static IEnumerable<string> Words(string text)
    {
        string joined = "", last = "";
        foreach (string word in text.Split(' ', StringSplitOptions.RemoveEmptyEntries))
        {
            if (last.Length > 0 && Stays(last, word))
            {
                joined += " " + word;
            }
            else
            {
                if (joined.Length > 0)
                {
                    yield return joined;
                }

                joined = word;
            }

            last = word;
        }

        if (joined.Length > 0)
        {
            yield return joined;
        }

        static bool Stays(string before, string word)
        {
            string bare = word.TrimEnd('.', ',', ';', ':', ')');
            bool number = char.IsAsciiDigit(before[^1]);
            return (number && (Units.Contains(bare.Split('-')[0], StringComparer.Ordinal) || (bare.Length == 3 && bare.All(char.IsAsciiDigit) && before.TrimStart('(', '-', '+').Length <= 3)))
                || (before == "h" && bare.Length == 2 && bare.All(char.IsAsciiDigit))
                || (before.TrimStart('(') is "km" or "mi" && char.IsAsciiDigit(word[0]));
        }
    }
}
