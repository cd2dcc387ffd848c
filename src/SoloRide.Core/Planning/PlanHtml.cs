using System.Text;
using SoloRide.Internal;

namespace SoloRide.Planning;

/// <summary>A plan as a page that prints: the content of the text, in tables and terms.</summary>
internal static class PlanHtml
{
    public static string Part(RidePlan plan, PlanTextOptions options)
    {
        var u = new PlanUnits(options.Units);
        var b = new StringBuilder();
        (string _, string right) = PlanText.Head(plan);
        b.Append("<h1>").Append(Html.Escape(plan.Title)).Append("</h1>\n<p>").Append(Html.Escape(right)).Append("<br>");
        (string left, right) = PlanText.SubHead(plan, u);
        b.Append(Html.Escape(left)).Append("; ").Append(Html.Escape(right)).Append("</p>\n<dl>\n");
        foreach ((string label, string text) in PlanText.Before(plan, u))
        {
            Html.Term(b, label, text);
        }

        b.Append("</dl>\n");
        if (plan.Stations.Count > 0)
        {
            b.Append("<table>\n<thead><tr>");
            string[] head = PlanText.Columns(u);
            for (int c = 0; c < head.Length; c++)
            {
                b.Append(Numeric(c) ? "<th class=\"n\" scope=\"col\">" : "<th scope=\"col\">").Append(Html.Escape(head[c])).Append("</th>");
            }

            b.Append("</tr></thead>\n<tbody>\n");
            foreach (PlanStation s in plan.Stations)
            {
                string[] cells = PlanText.Cells(s, plan, u);
                b.Append("<tr>");
                for (int c = 0; c < cells.Length; c++)
                {
                    b.Append(Numeric(c) ? "<td class=\"n\">" : "<td>").Append(Html.Escape(cells[c])).Append("</td>");
                }

                b.Append("</tr>\n");
            }

            b.Append("</tbody>\n</table>\n");
        }

        b.Append("<dl>\n");
        foreach ((string label, string text) in PlanText.After(plan, u))
        {
            Html.Term(b, label, text);
        }

        b.Append("</dl>\n").Append(Html.Caution());
        if (options.Details)
        {
            b.Append("<h2>What was assumed and found</h2>\n<ul>\n");
            PlanText.Details(plan, u, (label, text) => b.Append("<li>").Append(label.Length > 0 ? $"<em>{Html.Escape(label)}</em> " : "").Append(Html.Escape(text)).Append("</li>\n"));
            b.Append("</ul>\n");
        }

        return b.ToString();
    }

    private static bool Numeric(int column) => column is 0 or 5 or 6;
}
