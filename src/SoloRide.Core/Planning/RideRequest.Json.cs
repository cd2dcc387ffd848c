using System.Diagnostics.CodeAnalysis;

namespace SoloRide.Planning;

public sealed partial record RideRequest
{
    /// <summary>The request as JSON, whole: a plan is a pure function of this text and the terrain given beside it. Its schema is docs/schema/request.schema.json.</summary>
    /// <param name="personal">
    /// Whether personal and medical data go in. Left out unless asked for: <see cref="Rider"/>, <see cref="Sweat"/>, <see cref="Today"/>, pace learned from rides,
    /// and the times of a recorded line. A plan of the text without them stands on the wide priors and says so.
    /// </param>
    /// <returns>JSON text; the same request gives the same bytes everywhere.</returns>
    /// <exception cref="ArgumentOutOfRangeException"><paramref name="personal"/> is none of the enumeration.</exception>
    public string ToJson(PersonalData personal = PersonalData.LeftOut) => RequestJson.Write(this, personal);

    /// <summary>Reads a request from its JSON. What is absent keeps its default.</summary>
    /// <param name="json">The text.</param>
    /// <param name="source">Name of the text for messages.</param>
    /// <returns>The request.</returns>
    /// <exception cref="ArgumentException">No text, or no name for it.</exception>
    /// <exception cref="InputFormatException">The text is no request: says line, position, JSON path, what is wrong and what is allowed.</exception>
    public static RideRequest FromJson(string json, string source = "request") => RequestJson.Read(json, source);

    /// <summary>Reads a request from its JSON without throwing on a bad text.</summary>
    /// <param name="json">The text.</param>
    /// <param name="request">The request; null when the text is none.</param>
    /// <param name="error">Why the text is none; null when it is one.</param>
    /// <param name="source">Name of the text for messages.</param>
    /// <returns>Whether the text is a request.</returns>
    public static bool TryFromJson(string json, [NotNullWhen(true)] out RideRequest? request, [NotNullWhen(false)] out InputFormatException? error, string source = "request")
    {
        try
        {
            request = FromJson(json, source);
            error = null;
            return true;
        }
        catch (InputFormatException e)
        {
            request = null;
            error = e;
            return false;
        }
    }
}
