using System.Diagnostics.CodeAnalysis;

namespace SoloRide.Internal;

/// <summary>Tells C# notebooks how to show a type. Notebook kernels look for an attribute of this name and need no reference to one another's packages.</summary>
[AttributeUsage(AttributeTargets.Class | AttributeTargets.Struct)]
internal sealed class TypeFormatterSourceAttribute([DynamicallyAccessedMembers(DynamicallyAccessedMemberTypes.PublicParameterlessConstructor | DynamicallyAccessedMemberTypes.PublicMethods)] Type formatterSourceType) : Attribute
{
    [DynamicallyAccessedMembers(DynamicallyAccessedMemberTypes.PublicParameterlessConstructor | DynamicallyAccessedMemberTypes.PublicMethods)]
    public Type FormatterSourceType { get; } = formatterSourceType;

    public string[] PreferredMimeTypes { get; set; } = [];
}

/// <summary>Shows a result as the part of a page that <see cref="IShown"/> gives.</summary>
internal sealed class ShownFormatterSource
{
    public static IEnumerable<object> CreateTypeFormatters()
    {
        yield return new ShownFormatter();
    }
}

internal sealed class ShownFormatter
{
#pragma warning disable CA1822 // the shape that kernels look for
    public string MimeType => "text/html";

    public bool Format(object instance, TextWriter writer)
    {
        if (instance is not IShown shown)
        {
            return false;
        }

        writer.Write(shown.ToHtmlPart());
        return true;
    }
#pragma warning restore CA1822
}

/// <summary>A result that can stand in a page.</summary>
internal interface IShown
{
    /// <summary>Markup without head and style.</summary>
    string ToHtmlPart();
}

/// <summary>Shows a result by its own text, line for line.</summary>
internal sealed class PlainFormatterSource
{
    public static IEnumerable<object> CreateTypeFormatters()
    {
        yield return new PlainFormatter();
    }
}

internal sealed class PlainFormatter
{
#pragma warning disable CA1822 // the shape that kernels look for
    public string MimeType => "text/html";

    public bool Format(object instance, TextWriter writer)
    {
        writer.Write("<pre>");
        writer.Write(Html.Escape(instance.ToString() ?? ""));
        writer.Write("</pre>");
        return true;
    }
#pragma warning restore CA1822
}
