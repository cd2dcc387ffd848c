using System.Diagnostics.CodeAnalysis;

namespace SoloRide.Charts;

/// <summary>Writes pictures as HTML; a notebook calls it by the shape of its members.</summary>
[SuppressMessage("Performance", "CA1822", Justification = "The notebook asks for instance members.")]
internal sealed class PictureFormatter
{
    public string MimeType => "text/html";

    public bool Format(object instance, TextWriter writer)
    {
        string? html = instance switch { Picture p => p.ToHtml(), PictureSet s => s.ToHtml(), _ => null };
        if (html is null)
        {
            return false;
        }

        writer.Write(html);
        return true;
    }
}
