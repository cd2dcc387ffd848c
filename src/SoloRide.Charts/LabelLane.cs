namespace SoloRide.Charts;

/// <summary>Labels above a picture in a few rows, with leaders down to it; those without room stay out.</summary>
internal sealed class LabelLane(Sheet sheet, float left, float right, float bottom, int rows)
{
    private const float RowHeight = 15, Size = 11.5f, Gap = 8;
    private readonly List<(float X0, float X1, int Row, float Leader)> _placed = [];

    public int LeftOut { get; private set; }

    public bool Put(string text, float x, bool bold = false)
    {
        string fitted = Sheet.Fit(text, 190, Size, bold);
        float w = Sheet.WidthOf(fitted, Size, bold);
        float x0 = Math.Clamp(x - (w / 2), left, right - w);
        for (int row = 0; row < rows; row++)
        {
            bool free = _placed.All(p =>
                (p.Row != row || x0 > p.X1 + Gap || x0 + w < p.X0 - Gap)
                && (p.Row <= row || x0 > p.Leader + 3 || x0 + w < p.Leader - 3)
                && (p.Row >= row || x > p.X1 + 3 || x < p.X0 - 3));
            if (free)
            {
                _placed.Add((x0, x0 + w, row, x));
                float y = bottom - 6 - (row * RowHeight);
                sheet.Text(fitted, x0, y, Size, bold);
                sheet.Later(() => sheet.Line(x, y + 3, x, bottom, Ink.Soft, 0.8f));
                return true;
            }
        }

        LeftOut++;
        return false;
    }
}
