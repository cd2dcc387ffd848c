using System.Globalization;
using System.Text;
using SoloRide.Internal;

namespace SoloRide.Planning;

/// <summary>A six-element worksheet for a talk before a guided ride: six numbers from 0 to 10, filled in by people. It is asked for, and stands apart from every verdict.</summary>
/// <remarks>
/// The numbers are opinions; their sum is no probability. The value of the sheet is the talk: any single element of 8 or more stops the ride until it is
/// changed, whatever the sum. Immutable.
/// </remarks>
[Entry(NoOutsideCheck = "bounds are the published ones, read from the table of rules in its test when it is there")]
[TypeFormatterSource(typeof(PlainFormatterSource), PreferredMimeTypes = ["text/html"])]
public sealed record RiskWorksheet
{
    [Source("risk-worksheet", "any single element at or above this means stop or change, published rule RK2")]
    private const int StopsAt = 8;

    [Source("risk-worksheet", "upper end of the lower and of the middle band of the sum, published rule RK1")]
    private const int LowerTo = 23, MiddleTo = 44;

    private static readonly string[] Names = ["supervision", "planning", "crew selection", "fitness", "environment", "complexity"];

    private RiskWorksheet(int[] values) => Elements = [.. Names.Zip(values, (n, v) => (n, v))];

    /// <summary>The six elements with their numbers.</summary>
    public IReadOnlyList<(string Name, int Value)> Elements { get; }

    /// <summary>Elements of 8 or more.</summary>
    public IReadOnlyList<string> Stopping => [.. Elements.Where(e => e.Value >= StopsAt).Select(e => e.Name)];

    /// <summary>Whether any element stops the ride.</summary>
    public bool Stops => Stopping.Count > 0;

    /// <summary>What follows, in words.</summary>
    public string Words
    {
        get
        {
            int sum = Elements.Sum(e => e.Value);
            return Stops
                ? $"Stop: {string.Join(", ", Stopping)} must be changed before anybody leaves."
                : sum <= LowerTo ? "Nothing on the sheet speaks against leaving; say what would change that."
                : sum <= MiddleTo ? "Talk it through: name what lowers the largest numbers before leaving."
                : "Do not leave as planned: change the plan and fill the sheet in again.";
        }
    }

    /// <summary>Fills the sheet in.</summary>
    /// <param name="supervision">[0 to 10] Leaders, contact with others.</param>
    /// <param name="planning">[0 to 10] Time and information for planning.</param>
    /// <param name="crewSelection">[0 to 10] Who rides, their skill.</param>
    /// <param name="fitness">[0 to 10] Rest and health today.</param>
    /// <param name="environment">[0 to 10] Weather, terrain, light.</param>
    /// <param name="complexity">[0 to 10] How many things must go right.</param>
    /// <returns>The sheet.</returns>
    /// <exception cref="ArgumentOutOfRangeException">A number outside 0 to 10.</exception>
    public static RiskWorksheet Of(int supervision, int planning, int crewSelection, int fitness, int environment, int complexity) => new(
    [
        Guard.InRange(supervision, 0, 10, "points"), Guard.InRange(planning, 0, 10, "points"), Guard.InRange(crewSelection, 0, 10, "points"),
        Guard.InRange(fitness, 0, 10, "points"), Guard.InRange(environment, 0, 10, "points"), Guard.InRange(complexity, 0, 10, "points"),
    ]);

    /// <summary>The sheet as text.</summary>
    /// <returns>Text with line feeds, with the cautions.</returns>
    public string ToText()
    {
        var b = new StringBuilder();
        foreach ((string name, int value) in Elements)
        {
            b.Append(CultureInfo.InvariantCulture, $"{name,-15}{value,2} of 10\n");
        }

        PlanText.Paragraph(b, "Says", Words);
        PlanText.Paragraph(b, "Caution", "Numbers of opinion, no probability. " + Cautions.Text);
        return b.ToString();
    }

    /// <summary>The sheet as text.</summary>
    /// <returns>Text.</returns>
    public override string ToString() => ToText();
}
