// Turns notebooks that were run into pages of the docs: text, code, and what the code showed.
// dotnet run .ci/notebook-pages.cs -- FOLDER_OF_RUN_NOTEBOOKS docs/notebooks
using System.Text;
using System.Text.Json;
using System.Text.RegularExpressions;

if (args is not [var from, var to])
{
    Console.Error.WriteLine("usage: notebook-pages FOLDER_OF_RUN_NOTEBOOKS FOLDER_OF_PAGES");
    return 1;
}

string[] order = ["first-plan", "sun-shade-moon", "water-and-heat", "batteries-and-light", "learn-my-pace", "if-the-bike-breaks", "a-guides-day"];
string images = Path.Combine(to, "images");
Directory.CreateDirectory(images);
string[] found = [.. Directory.GetFiles(from, "*.ipynb").Select(f => Path.GetFileNameWithoutExtension(f)!)];
string[] pages = [.. order.Where(found.Contains), .. found.Except(order).Order(StringComparer.Ordinal)];
if (pages.Length == 0)
{
    Console.Error.WriteLine($"{from}: no notebooks; run them first.");
    return 1;
}

var toc = new StringBuilder("- name: Notebooks\n  href: index.md\n");
var index = new StringBuilder("# Notebooks\n\nEach page is a notebook of `docs/notebooks`, run when this site was built, with what its cells showed. Copy a block into a notebook of your own.\n\n");
foreach (string name in pages)
{
    using JsonDocument book = JsonDocument.Parse(File.ReadAllText(Path.Combine(from, name + ".ipynb")));
    var page = new StringBuilder();
    int picture = 0;
    foreach (JsonElement cell in book.RootElement.GetProperty("cells").EnumerateArray())
    {
        string source = Joined(cell.GetProperty("source")).ReplaceLineEndings("\n").Trim();
        if (cell.GetProperty("cell_type").GetString() == "markdown")
        {
            page.Append(source).Append("\n\n");
            continue;
        }

        source = Regex.Replace(source, @"(#r ""nuget: SoloRide\.\w+, )[^""]+", "${1}0.1.0");
        page.Append("```csharp\n").Append(source).Append("\n```\n\n");
        if (source.StartsWith("#r", StringComparison.Ordinal))
        {
            continue;
        }

        foreach (JsonElement output in cell.GetProperty("outputs").EnumerateArray())
        {
            if (output.TryGetProperty("text", out JsonElement text))
            {
                page.Append(Fenced(Joined(text)));
            }
            else if (output.TryGetProperty("data", out JsonElement data) && data.TryGetProperty("text/html", out JsonElement html))
            {
                page.Append(Html(Joined(html).ReplaceLineEndings("\n"), name, ref picture)).Append("\n\n");
            }
            else if (data.ValueKind == JsonValueKind.Object && data.TryGetProperty("text/plain", out JsonElement plain))
            {
                page.Append(Fenced(Joined(plain)));
            }
        }
    }

    string title = Regex.Match(page.ToString(), @"^# (.+)$", RegexOptions.Multiline).Groups[1].Value.Trim();
    string first = Regex.Match(page.ToString(), @"^# .+\n\n([^\n]+)", RegexOptions.Multiline).Groups[1].Value;
    first = first.Split(" The package comes", 2)[0];
    toc.Append("- name: '").Append(title.Replace("'", "''", StringComparison.Ordinal)).Append("'\n  href: ").Append(name).Append(".md\n");
    index.Append("* [").Append(title).Append("](").Append(name).Append(".md): ").Append(first).Append('\n');
    File.WriteAllText(Path.Combine(to, name + ".md"), page.ToString());
    Console.WriteLine($"{name}: {page.Length} characters, {picture} pictures");
}

File.WriteAllText(Path.Combine(to, "toc.yml"), toc.ToString());
File.WriteAllText(Path.Combine(to, "index.md"), index.ToString());
return 0;

static string Joined(JsonElement e) => e.ValueKind == JsonValueKind.Array ? string.Concat(e.EnumerateArray().Select(s => s.GetString())) : e.GetString() ?? "";

// Long lines wrap: a caution that runs out of sight is not read.
static string Fenced(string text)
{
    text = text.ReplaceLineEndings("\n").TrimEnd();
    return text.Split('\n').All(l => l.Length <= 84) ? $"```text\n{text}\n```\n\n" : $"<pre style=\"white-space:pre-wrap\">{System.Net.WebUtility.HtmlEncode(text)}</pre>\n\n";
}

// Pictures become files; other HTML stays, in one block: an empty line would end it.
string Html(string html, string name, ref int picture)
{
    html = Regex.Replace(html, @"<style>.*?</style>", "", RegexOptions.Singleline);
    html = Regex.Replace(html, @"<div class=""dni-plaintext""><pre>(.*?)</pre></div>", "$1", RegexOptions.Singleline);
    int at = html.IndexOf("<svg", StringComparison.Ordinal);
    while (at >= 0)
    {
        int end = html.IndexOf("</svg>", at, StringComparison.Ordinal) + "</svg>".Length;
        string svg = html[at..end], file = $"{name}-{++picture}.svg";
        string alt = Regex.Match(svg, @"<title[^>]*>(.*?)</title>", RegexOptions.Singleline).Groups[1].Value.Trim();
        if (alt.Length == 0)
        {
            alt = Regex.Match(svg, @"aria-label=""([^""]*)""").Groups[1].Value;
        }

        File.WriteAllText(Path.Combine(images, file), svg);
        html = html[..at] + $"<img src=\"images/{file}\" alt=\"{alt.Replace("\"", "&quot;", StringComparison.Ordinal)}\">" + html[end..];
        at = html.IndexOf("<svg", at, StringComparison.Ordinal);
    }

    html = html.Replace("<pre>", "<pre style=\"white-space:pre-wrap\">", StringComparison.Ordinal);
    return "<div>\n" + Regex.Replace(html.Trim(), @"\n\s*\n", "\n") + "\n</div>";
}
