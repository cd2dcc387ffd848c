namespace SoloRide.Charts;

/// <summary>Tells a notebook by its name and shape how a result is displayed; nothing of a notebook is referenced.</summary>
[AttributeUsage(AttributeTargets.Class)]
internal sealed class TypeFormatterSourceAttribute(Type formatterSourceType) : Attribute
{
    public Type FormatterSourceType { get; } = formatterSourceType;

    public string[] PreferredMimeTypes { get; set; } = [];
}
