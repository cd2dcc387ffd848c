namespace SoloRide.Internal;

/// <summary>Names the published source (or stated assumption) of a constant, table or formula; the id is a row of docs/sources.md.</summary>
[AttributeUsage(AttributeTargets.All, AllowMultiple = true, Inherited = false)]
internal sealed class SourceAttribute(string id, string place = "") : Attribute
{
    /// <summary>The row of docs/sources.md.</summary>
    public string Id { get; } = id;

    /// <summary>Where in the document: equation, table, clause.</summary>
    public string Place { get; } = place;
}
