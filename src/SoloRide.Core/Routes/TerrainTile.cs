using SoloRide.Internal;

namespace SoloRide.Routes;

/// <summary>One raster: nodes at the middles of cells, rows from the north, in degrees or metres of a UTM zone. Never changed once built.</summary>
internal sealed class TerrainTile
{
    private readonly short[]? _shorts;
    private readonly float[]? _floats;
    private readonly double[]? _doubles;
    private readonly double _void;

    /// <param name="data">short[], float[] or double[], row by row from the north.</param>
    /// <param name="columns">Cells in a row.</param>
    /// <param name="rows">Rows.</param>
    /// <param name="leftX">Western edge of the first cell.</param>
    /// <param name="topY">Northern edge of the first row.</param>
    /// <param name="cellX">Width of a cell.</param>
    /// <param name="cellY">Height of a cell.</param>
    /// <param name="noData">Value that marks a void; NaN for none.</param>
    /// <param name="zone">UTM zone; 0 when the coordinates are degrees.</param>
    /// <param name="north">Whether the zone is on the northern half.</param>
    public TerrainTile(Array data, int columns, int rows, double leftX, double topY, double cellX, double cellY, double noData, int zone = 0, bool north = true)
    {
        _shorts = data as short[];
        _floats = data as float[];
        _doubles = data as double[];
        Columns = columns;
        Rows = rows;
        LeftX = leftX;
        TopY = topY;
        CellX = cellX;
        CellY = cellY;
        Zone = zone;
        North = north;
        _void = _floats is null ? noData : (float)noData;
    }

    public int Columns { get; }

    public int Rows { get; }

    public double LeftX { get; }

    public double TopY { get; }

    public double CellX { get; }

    public double CellY { get; }

    public int Zone { get; }

    public bool North { get; }

    /// <summary>Height of a node; NaN for a void.</summary>
    public double Node(int column, int row)
    {
        int i = checked((row * Columns) + column);
        double v = _shorts is { } s ? s[i] : _floats is { } f ? f[i] : _doubles![i];
        return v == _void || !double.IsFinite(v) ? double.NaN : v;
    }

    /// <summary>Height at a place; NaN outside and in voids.</summary>
    public double HeightM(double latDeg, double lonDeg, bool bicubic)
    {
        double x = lonDeg, y = latDeg;
        if (Zone > 0)
        {
            if (Math.Abs(Math.IEEERemainder(lonDeg - UtmKernel.CentralMeridianDeg(Zone), 360)) > 20 || Math.Abs(latDeg) > 89)
            {
                return double.NaN;
            }

            UtmKernel.UtmForward(latDeg, lonDeg, Zone, North, out x, out y);
        }
        else
        {
            // The raster may be counted beyond 180 deg, or the place from the other side of the antimeridian.
            double middle = LeftX + (Columns * CellX / 2);
            x = middle + Math.IEEERemainder(lonDeg - middle, 360);
        }

        double height = bicubic ? CatmullRomM(x, y) : BilinearM(x, y);
        return bicubic && double.IsNaN(height) ? BilinearM(x, y) : height;
    }

    /// <summary>Bilinear height in the raster's own coordinates; NaN where one of the four nodes is missing or void.</summary>
    [Source("interpolation-bilinear", "plain pixel-centre form")]
    public double BilinearM(double x, double y)
    {
        if (!Locate(x, y, out double u, out double v))
        {
            return double.NaN;
        }

        int i = Math.Min((int)u, Columns - 2), j = Math.Min((int)v, Rows - 2);
        if (i < 0 || j < 0)
        {
            return double.NaN;
        }

        u -= i;
        v -= j;
        double top = Node(i, j) + (u * (Node(i + 1, j) - Node(i, j)));
        double bottom = Node(i, j + 1) + (u * (Node(i + 1, j + 1) - Node(i, j + 1)));
        return top + (v * (bottom - top));
    }

    /// <summary>Catmull-Rom height in the raster's own coordinates; NaN where one of the sixteen nodes is missing or void.</summary>
    [Source("interpolation-catmull-rom", "cubic convolution with a = -0.5")]
    public double CatmullRomM(double x, double y)
    {
        if (!Locate(x, y, out double u, out double v))
        {
            return double.NaN;
        }

        int i = Math.Min((int)u, Columns - 3), j = Math.Min((int)v, Rows - 3);
        if (i < 1 || j < 1)
        {
            return double.NaN;
        }

        u -= i;
        v -= j;
        Span<double> wu = stackalloc double[4], wv = stackalloc double[4];
        Weights(u, wu);
        Weights(v, wv);
        double sum = 0;
        for (int r = 0; r < 4; r++)
        {
            double row = 0;
            for (int c = 0; c < 4; c++)
            {
                row += wu[c] * Node(i - 1 + c, j - 1 + r);
            }

            sum += wv[r] * row;
        }

        return sum;
    }

    private static void Weights(double t, Span<double> w)
    {
        double t2 = t * t, t3 = t2 * t;
        w[0] = (-t3 + (2 * t2) - t) / 2;
        w[1] = ((3 * t3) - (5 * t2) + 2) / 2;
        w[2] = ((-3 * t3) + (4 * t2) + t) / 2;
        w[3] = (t3 - t2) / 2;
    }

    /// <summary>Column and row of a place, counted from the middle of the first cell; false outside the nodes.</summary>
    private bool Locate(double x, double y, out double u, out double v)
    {
        u = ((x - LeftX) / CellX) - 0.5;
        v = ((TopY - y) / CellY) - 0.5;

        // A place on the border may miss it by the rounding of its coordinates.
        const double Slack = 1e-9;
        if (!(u >= -Slack && v >= -Slack && u <= Columns - 1 + Slack && v <= Rows - 1 + Slack))
        {
            return false;
        }

        u = Math.Clamp(u, 0, Columns - 1);
        v = Math.Clamp(v, 0, Rows - 1);
        return true;
    }
}
