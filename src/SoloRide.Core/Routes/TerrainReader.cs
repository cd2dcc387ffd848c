using System.Buffers.Binary;
using System.Globalization;
using System.IO.Compression;
using System.Runtime.InteropServices;
using System.Text;
using BitMiracle.LibTiff.Classic;
using SoloRide.Internal;

namespace SoloRide.Routes;

/// <summary>Reads rasters of heights: SRTM .hgt, Esri ASCII grid, GeoTIFF; plain or gzip (GeoTIFF plain).</summary>
internal static class TerrainReader
{
    private const short HgtVoid = -32768;
    private static readonly Lock TiffLock = new();

    public static TerrainTile Read(string path, TerrainOptions options)
    {
        string name = Path.GetFileName(path);
        using var file = new FileStream(path, FileMode.Open, FileAccess.Read, FileShare.Read, 1 << 16, FileOptions.SequentialScan);
        byte[] head = new byte[4];
        int n = file.ReadAtLeast(head, 4, throwOnEndOfStream: false);
        file.Position = 0;
        if (n == 4 && head is [(byte)'I', (byte)'I', 42 or 43, 0] or [(byte)'M', (byte)'M', 0, 42 or 43])
        {
            return GeoTiff(file, name, options);
        }

        Stream stream = file;
        if (head is [0x1F, 0x8B, ..])
        {
            stream = new GZipStream(file, CompressionMode.Decompress);
            name = name.EndsWith(".gz", StringComparison.OrdinalIgnoreCase) ? name[..^3] : name;
        }

        using (stream)
        {
            try
            {
                return name.EndsWith(".hgt", StringComparison.OrdinalIgnoreCase) ? Hgt(stream, name, options) : EsriAscii(stream, name, options);
            }
            catch (InvalidDataException e)
            {
                throw new InputFormatException(name, 0, 0, "the gzip data are damaged: " + e.Message, e);
            }
        }
    }

    [Source("srtm-hgt", "square of big-endian 16-bit heights named by its south-western corner")]
    private static TerrainTile Hgt(Stream stream, string name, TerrainOptions options)
    {
        ReadOnlySpan<char> s = name;
        if (s.Length < 7 || (s[0] | 0x20) is not ('n' or 's') || (s[3] | 0x20) is not ('e' or 'w')
            || !int.TryParse(s.Slice(1, 2), NumberStyles.None, CultureInfo.InvariantCulture, out int lat)
            || !int.TryParse(s.Slice(4, 3), NumberStyles.None, CultureInfo.InvariantCulture, out int lon) || lat > 90 || lon > 180)
        {
            throw new InputFormatException(name, 0, 0, "the name of an .hgt file must tell its south-western corner, such as N44W072.hgt.");
        }

        lat = (s[0] | 0x20) == 's' ? -lat : lat;
        lon = (s[3] | 0x20) == 'w' ? -lon : lon;
        using var memory = new MemoryStream();
        Copy(stream, memory, 2L * options.MaxCells, name);
        int side = (int)Math.Round(Math.Sqrt(memory.Length / 2.0));
        if (side < 2 || 2L * side * side != memory.Length)
        {
            throw new InputFormatException(name, 0, 0, string.Create(CultureInfo.InvariantCulture, $"{memory.Length} bytes are no square of 16-bit heights; usual are 1201 or 3601 on a side."));
        }

        short[] heights = new short[side * side];
        memory.GetBuffer().AsSpan(0, 2 * heights.Length).CopyTo(MemoryMarshal.AsBytes(heights.AsSpan()));
        if (BitConverter.IsLittleEndian)
        {
            BinaryPrimitives.ReverseEndianness(heights, heights);
        }

        double cell = 1.0 / (side - 1);
        return new TerrainTile(heights, side, side, lon - (cell / 2), lat + 1 + (cell / 2), cell, cell, HgtVoid);
    }

    [Source("esri-ascii-grid", "header keys and rows from the north")]
    private static TerrainTile EsriAscii(Stream stream, string name, TerrainOptions options)
    {
        using var reader = new StreamReader(stream, Encoding.Latin1, detectEncodingFromByteOrderMarks: true, 1 << 16);
        var words = new Words(reader);
        double columns = double.NaN, rows = double.NaN, x = double.NaN, y = double.NaN, cell = double.NaN, noData = -9999;
        bool centre = false;
        while (words.Next(out ReadOnlySpan<char> word) && !NumberText.TryNumber(word, out _))
        {
            string key = word.Length > 40 ? word[..40].ToString() : word.ToString().ToLowerInvariant();
            if (key is not ("ncols" or "nrows" or "xllcorner" or "yllcorner" or "xllcenter" or "yllcenter" or "cellsize" or "nodata_value"))
            {
                throw new InputFormatException(name, words.Line, 0, $"'{key}' is no key of an Esri ASCII grid; expected ncols, nrows, xllcorner or xllcenter, yllcorner or yllcenter, cellsize, nodata_value.");
            }

            if (!words.Next(out word) || !NumberText.TryNumber(word, out double v) || !double.IsFinite(v))
            {
                throw new InputFormatException(name, words.Line, 0, $"{key} needs a number.");
            }

            switch (key)
            {
                case "ncols": columns = v; break;
                case "nrows": rows = v; break;
                case "xllcorner": x = v; break;
                case "yllcorner": y = v; break;
                case "xllcenter": (x, centre) = (v, true); break;
                case "yllcenter": (y, centre) = (v, true); break;
                case "cellsize": cell = v; break;
                default: noData = v; break;
            }
        }

        if (!(columns >= 1 && rows >= 1 && columns * rows <= options.MaxCells && columns == Math.Floor(columns) && rows == Math.Floor(rows)) || !(cell > 0) || double.IsNaN(x) || double.IsNaN(y))
        {
            throw new InputFormatException(name, words.Line, 0, string.Create(CultureInfo.InvariantCulture,
                $"the header of an Esri ASCII grid needs ncols, nrows (product up to {options.MaxCells}), xllcorner, yllcorner and a cellsize above 0."));
        }

        double[] heights = new double[(int)(columns * rows)];
        words.Back();
        for (int i = 0; i < heights.Length; i++)
        {
            if (!words.Next(out ReadOnlySpan<char> word) || !NumberText.TryNumber(word, out heights[i]))
            {
                throw new InputFormatException(name, words.Line, 0, string.Create(CultureInfo.InvariantCulture, $"height {i + 1} of {heights.Length} is missing or not a number."));
            }
        }

        if (centre)
        {
            (x, y) = (x - (cell / 2), y - (cell / 2));
        }

        double top = y + (rows * cell);
        bool degrees = options.UtmZone is null;
        if (degrees && (x < -360 || x + (columns * cell) > 540 || y < -90.1 || top > 90.1))
        {
            throw new InputFormatException(name, 0, 0, "the grid's coordinates are no degrees, and an Esri ASCII grid does not tell its projection; give TerrainOptions.UtmZone.");
        }

        return new TerrainTile(Smallest(heights, noData), (int)columns, (int)rows, x, top, cell, cell, noData, options.UtmZone ?? 0, !options.UtmSouth);
    }

    // Whole metres take a quarter of the memory.
    private static Array Smallest(double[] heights, double noData)
    {
        foreach (double h in heights)
        {
            if (h != Math.Floor(h) || Math.Abs(h) > short.MaxValue)
            {
                return heights;
            }
        }

        if (noData != Math.Floor(noData) || Math.Abs(noData) > short.MaxValue)
        {
            return heights;
        }

        return Array.ConvertAll(heights, h => (short)h);
    }

    [Source("geotiff-1.1", "ModelTiepoint, ModelPixelScale, ModelTransformation, GeoKeyDirectory, PixelIsArea and PixelIsPoint")]
    private static TerrainTile GeoTiff(Stream stream, string name, TerrainOptions options)
    {
        var errors = new SilentHandler();
        try
        {
            // The library knows one handler for all, which writes to the console unless replaced: ours is in place while a file is read.
            lock (TiffLock)
            {
                TiffErrorHandler? previous = Tiff.SetErrorHandler(errors);
                try
                {
                    return Opened();
                }
                finally
                {
                    Tiff.SetErrorHandler(previous);
                }
            }
        }
        catch (Exception e) when (e is not (InputFormatException or OutOfMemoryException or IOException))
        {
            // The library meets damaged files with many kinds of exceptions.
            throw new InputFormatException(name, 0, 0, "the TIFF file is damaged: " + e.Message, e);
        }

        TerrainTile Opened()
        {
            using Tiff? tiff = Tiff.ClientOpen(name, "r", stream, new ReadStream());
            return tiff is not null ? GeoTiff(tiff, name, options, errors) : throw new InputFormatException(name, 0, 0, "not a TIFF file that can be opened: " + errors.Text);
        }
    }

    private static TerrainTile GeoTiff(Tiff tiff, string name, TerrainOptions options, SilentHandler errors)
    {
        int width = Field(TiffTag.IMAGEWIDTH, 0), height = Field(TiffTag.IMAGELENGTH, 0), bits = Field(TiffTag.BITSPERSAMPLE, 8);
        int samples = Field(TiffTag.SAMPLESPERPIXEL, 1), planar = Field(TiffTag.PLANARCONFIG, 1);
        var format = (SampleFormat)Field(TiffTag.SAMPLEFORMAT, 1);
        if (width < 1 || height < 1 || (long)width * height > options.MaxCells)
        {
            throw new InputFormatException(name, 0, 0, string.Create(CultureInfo.InvariantCulture, $"the raster is {width} x {height}; allowed are 1 to {options.MaxCells} cells."));
        }

        bool known = (format, bits) is (SampleFormat.INT or SampleFormat.UINT, 8 or 16 or 32) or (SampleFormat.IEEEFP, 32 or 64);
        if (!known || samples < 1 || (planar != 1 && samples > 1))
        {
            throw new InputFormatException(name, 0, 0, string.Create(CultureInfo.InvariantCulture,
                $"samples of {bits} bits in format {format} ({samples} a cell) are no heights; read are whole numbers of 8, 16 or 32 bits and floating point of 32 or 64."));
        }

        Array data = format == SampleFormat.IEEEFP ? bits == 32 ? new float[width * height] : new double[width * height]
            : bits == 8 || (bits == 16 && format == SampleFormat.INT) ? new short[width * height] : new double[width * height];
        int sampleBytes = bits / 8, cellBytes = sampleBytes * samples;
        if (tiff.IsTiled())
        {
            int tw = Field(TiffTag.TILEWIDTH, 0), th = Field(TiffTag.TILELENGTH, 0);
            if (tw < 1 || th < 1 || (long)tw * th * cellBytes > int.MaxValue)
            {
                throw new InputFormatException(name, 0, 0, "the tiles of the TIFF file have no size.");
            }

            byte[] buffer = new byte[tiff.TileSize()];
            for (int y = 0; y < height; y += th)
            {
                for (int x = 0; x < width; x += tw)
                {
                    if (tiff.ReadEncodedTile(tiff.ComputeTile(x, y, 0, 0), buffer, 0, buffer.Length) < 0)
                    {
                        throw new InputFormatException(name, 0, 0, "a tile cannot be read: " + errors.Text);
                    }

                    for (int r = 0; r < Math.Min(th, height - y); r++)
                    {
                        Take(buffer, r * tw * cellBytes, Math.Min(tw, width - x), data, ((y + r) * width) + x);
                    }
                }
            }
        }
        else
        {
            int rowsPerStrip = Math.Clamp(Field(TiffTag.ROWSPERSTRIP, height), 1, height);
            byte[] buffer = new byte[Math.Max(tiff.StripSize(), checked(rowsPerStrip * width * cellBytes))];
            for (int y = 0, strip = 0; y < height; y += rowsPerStrip, strip++)
            {
                if (tiff.ReadEncodedStrip(strip, buffer, 0, buffer.Length) < 0)
                {
                    throw new InputFormatException(name, 0, 0, "a strip cannot be read: " + errors.Text);
                }

                for (int r = 0; r < Math.Min(rowsPerStrip, height - y); r++)
                {
                    Take(buffer, r * width * cellBytes, width, data, (y + r) * width);
                }
            }
        }

        double[] scale = Doubles((TiffTag)33550), tie = Doubles((TiffTag)33922), matrix = Doubles((TiffTag)34264);
        double left, top, cellX, cellY;
        if (scale.Length >= 2 && tie.Length >= 6)
        {
            (cellX, cellY) = (scale[0], scale[1]);
            (left, top) = (tie[3] - (tie[0] * cellX), tie[4] + (tie[1] * cellY));
        }
        else if (matrix.Length >= 8 && matrix[1] == 0 && matrix[4] == 0)
        {
            (cellX, cellY, left, top) = (matrix[0], -matrix[5], matrix[3], matrix[7]);
        }
        else
        {
            throw new InputFormatException(name, 0, 0, "the TIFF file does not tell where it lies (ModelTiepoint with ModelPixelScale, or a ModelTransformation without rotation).");
        }

        if (!(cellX > 0 && cellY > 0 && double.IsFinite(left) && double.IsFinite(top)))
        {
            throw new InputFormatException(name, 0, 0, "the cells of the TIFF file have no size, or its place is not finite.");
        }

        (int model, int raster, int geographic, int projected) = Keys(tiff);
        if (raster == 2)
        {
            // The tie point is the middle of the first cell.
            (left, top) = (left - (cellX / 2), top + (cellY / 2));
        }

        int zone = 0;
        bool north = true;
        if (model == 1 || projected != 0)
        {
            (zone, north) = projected switch
            {
                >= 32601 and <= 32660 => (projected - 32600, true),
                >= 32701 and <= 32760 => (projected - 32700, false),
                >= 26901 and <= 26923 => (projected - 26900, true),
                >= 25828 and <= 25838 => (projected - 25800, true),
                _ when options.UtmZone is { } stated => (stated, !options.UtmSouth),
                _ => throw new InputFormatException(name, 0, 0, string.Create(CultureInfo.InvariantCulture,
                    $"the raster's projection (EPSG {projected}) is not read; read are degrees and UTM on WGS 84, NAD83 and ETRS89. Give TerrainOptions.UtmZone if it is one of these.")),
            };
        }
        else if (geographic is not (0 or 4326 or 4269 or 4258 or 4979))
        {
            throw new InputFormatException(name, 0, 0, string.Create(CultureInfo.InvariantCulture, $"the raster's datum (EPSG {geographic}) is not read; read are WGS 84, NAD83 and ETRS89."));
        }

        double noData = double.NaN;
        if (tiff.GetField((TiffTag)42113) is { Length: > 0 } field
            && NumberText.TryNumber(Encoding.ASCII.GetString(field[^1].ToByteArray() ?? []).TrimEnd('\0'), out double v))
        {
            noData = v;
        }

        return new TerrainTile(data, width, height, left, top, cellX, cellY, noData, zone, north);

        int Field(TiffTag tag, int otherwise) => tiff.GetField(tag) is { Length: > 0 } f ? f[0].ToInt() : otherwise;

        double[] Doubles(TiffTag tag) => tiff.GetField(tag) is { Length: > 0 } f ? f[^1].ToDoubleArray() ?? [] : [];

        void Take(byte[] buffer, int at, int count, Array into, int to)
        {
            ReadOnlySpan<byte> b = buffer.AsSpan(at);
            for (int i = 0; i < count; i++, b = b[Math.Min(cellBytes, b.Length)..])
            {
                switch (into)
                {
                    case short[] s:
                        s[to + i] = bits == 8 ? format == SampleFormat.INT ? (sbyte)b[0] : b[0] : MemoryMarshal.Read<short>(b);
                        break;
                    case float[] f:
                        f[to + i] = MemoryMarshal.Read<float>(b);
                        break;
                    case double[] d:
                        d[to + i] = format == SampleFormat.IEEEFP ? MemoryMarshal.Read<double>(b)
                            : bits == 16 ? MemoryMarshal.Read<ushort>(b)
                            : format == SampleFormat.INT ? MemoryMarshal.Read<int>(b) : MemoryMarshal.Read<uint>(b);
                        break;
                }
            }
        }
    }

    private static (int Model, int Raster, int Geographic, int Projected) Keys(Tiff tiff)
    {
        int model = 0, raster = 1, geographic = 0, projected = 0;
        if (tiff.GetField((TiffTag)34735) is { Length: > 0 } field && field[^1].ToShortArray() is { Length: >= 4 } keys)
        {
            for (int k = 4; k + 3 < keys.Length; k += 4)
            {
                int value = (ushort)keys[k + 3];
                if (keys[k + 1] != 0)
                {
                    continue;
                }

                switch ((ushort)keys[k])
                {
                    case 1024: model = value; break;
                    case 1025: raster = value; break;
                    case 2048: geographic = value; break;
                    case 3072: projected = value; break;
                }
            }
        }

        return (model, raster, geographic, projected);
    }

    private static void Copy(Stream from, MemoryStream to, long limit, string name)
    {
        byte[] buffer = new byte[1 << 16];
        int n;
        while ((n = from.Read(buffer)) > 0)
        {
            to.Write(buffer, 0, n);
            if (to.Length > limit)
            {
                throw new InputFormatException(name, 0, 0, string.Create(CultureInfo.InvariantCulture, $"larger than {limit} bytes; the limit is TerrainOptions.MaxCells."));
            }
        }
    }

    /// <summary>Words of a text, separated by white space.</summary>
    private sealed class Words(TextReader reader)
    {
        private readonly char[] _buffer = new char[1 << 15];
        private readonly char[] _word = new char[256];
        private int _at, _end, _length;
        private bool _back;

        public int Line { get; private set; } = 1;

        public bool Next(out ReadOnlySpan<char> word)
        {
            if (_back)
            {
                _back = false;
                word = _word.AsSpan(0, _length);
                return true;
            }

            _length = 0;
            while (true)
            {
                if (_at == _end)
                {
                    _at = 0;
                    _end = reader.Read(_buffer, 0, _buffer.Length);
                    if (_end <= 0)
                    {
                        _end = 0;
                        break;
                    }
                }

                char c = _buffer[_at++];
                if (NumberText.IsSpace(c))
                {
                    Line += c == '\n' ? 1 : 0;
                    if (_length > 0)
                    {
                        break;
                    }
                }
                else if (_length < _word.Length)
                {
                    _word[_length++] = c;
                }
            }

            word = _word.AsSpan(0, _length);
            return _length > 0;
        }

        /// <summary>Gives the last word again.</summary>
        public void Back() => _back = _length > 0;
    }

    /// <summary>Keeps the library's messages from the console.</summary>
    private sealed class SilentHandler : TiffErrorHandler
    {
        public string Text { get; private set; } = "no reason given";

        public override void ErrorHandler(Tiff? tif, string? method, string? format, params object[] args)
            => Text = string.Format(CultureInfo.InvariantCulture, format ?? "", args);

        public override void ErrorHandlerExt(Tiff? tif, object? clientData, string? method, string? format, params object[] args)
        {
        }

        public override void WarningHandler(Tiff? tif, string? method, string? format, params object[] args)
        {
        }

        public override void WarningHandlerExt(Tiff? tif, object? clientData, string? method, string? format, params object[] args)
        {
        }
    }

    private sealed class ReadStream : TiffStream
    {
        public override void Close(object clientData)
        {
            // The caller's stream stays with the caller.
        }
    }
}
