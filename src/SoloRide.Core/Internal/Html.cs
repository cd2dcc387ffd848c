using System.Net;
using System.Text;

namespace SoloRide.Internal;

/// <summary>Pages that stand alone: no script, no outside file, legible in black and white and on paper.</summary>
internal static class Html
{
    private const string Style =
        "body{font:11pt/1.4 Georgia,'DejaVu Serif',serif;color:#000;background:#fff;max-width:46em;margin:1.5em auto;padding:0 1em}" +
        "h1{font-size:1.4em;margin:0 0 .2em}h2{font-size:1.05em;margin:1.1em 0 .2em;border-bottom:1px solid #000}" +
        "table{border-collapse:collapse;width:100%;margin:.6em 0}th,td{border-bottom:1px solid #777;padding:.15em .5em .15em 0;text-align:left;vertical-align:top}" +
        "th.n,td.n{text-align:right}dl{margin:.4em 0;display:grid;grid-template-columns:9em 1fr;gap:.2em .8em}dt{font-weight:bold}dd{margin:0;overflow-wrap:anywhere}" +
        "ul{margin:.3em 0;padding-left:1.2em}.caution{border:1px solid #000;padding:.4em .6em;margin-top:1em}" +
        "@media (max-width:36em){dl{display:block}dd{margin:0 0 .4em}table{font-size:.8em}}" +
        "@media print{@page{margin:10mm}body{margin:0;max-width:none;font-size:10pt}h2,tr,dd{break-inside:avoid}h2{break-after:avoid}" +
        ".one{font-size:8.2pt;line-height:1.22;columns:2;column-gap:6mm;padding:0}.one h1{column-span:all}.one h2{margin-top:.6em}.one dl{grid-template-columns:6.5em 1fr;gap:.1em .5em}}";

    public static string Escape(string text) => WebUtility.HtmlEncode(text);

    /// <summary>A whole document around a body.</summary>
    /// <param name="title">Title.</param>
    /// <param name="body">Body.</param>
    /// <param name="onePage">Printed small and in two columns, to go onto one sheet of paper.</param>
    public static string Page(string title, string body, bool onePage = false)
        => new StringBuilder()
            .Append("<!DOCTYPE html>\n<html lang=\"en\">\n<head>\n<meta charset=\"utf-8\">\n<meta name=\"viewport\" content=\"width=device-width,initial-scale=1\">\n<title>")
            .Append(Escape(title)).Append("</title>\n<style>").Append(Style).Append("</style>\n</head>\n<body").Append(onePage ? " class=\"one\"" : "").Append(">\n").Append(body).Append("</body>\n</html>\n").ToString();

    /// <summary>The caution that ends every page.</summary>
    public static string Caution() => $"<p class=\"caution\"><strong>Caution.</strong> {Escape(Cautions.Text)}</p>\n";

    public static StringBuilder Term(StringBuilder b, string name, string text)
        => b.Append("<dt>").Append(Escape(name)).Append("</dt><dd>").Append(Escape(text)).Append("</dd>\n");
}
