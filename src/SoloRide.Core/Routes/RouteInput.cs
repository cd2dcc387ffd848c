using System.Globalization;
using System.IO.Compression;
using System.Text;

namespace SoloRide.Routes;

/// <summary>Opens an input: unpacks gzip, finds the encoding by byte order mark and declaration, holds the bound on size.</summary>
internal static class RouteInput
{
    private const int HeadSize = 4096;

    public static RouteFile Read(Stream stream, string source, RouteReadOptions options)
    {
        var builder = new RouteFileBuilder(source, options);
        try
        {
            return Read(new Bounded(stream, source, options.MaxBytes), builder, packed: false);
        }
        catch (InvalidDataException e)
        {
            throw new InputFormatException(source, 0, 0, "the gzip data are damaged: " + e.Message, e);
        }
        finally
        {
            builder.Release();
        }
    }

    private static RouteFile Read(Stream stream, RouteFileBuilder builder, bool packed)
    {
        byte[] head = new byte[HeadSize];
        int n = stream.ReadAtLeast(head, head.Length, throwOnEndOfStream: false);
        ReadOnlySpan<byte> h = head.AsSpan(0, n);
        var whole = new Prefixed(head, n, stream);
        if (n == 0)
        {
            throw new InputFormatException(builder.Source, 1, 1, "the file is empty; expected GPX, GeoJSON or KML.");
        }

        if (h is [0x1F, 0x8B, ..])
        {
            if (packed)
            {
                throw new InputFormatException(builder.Source, 0, 0, "the file is packed by gzip twice; unpack it first.");
            }

            using var gzip = new GZipStream(whole, CompressionMode.Decompress, leaveOpen: true);
            return Read(new Bounded(gzip, builder.Source, builder.Options.MaxBytes), builder, packed: true);
        }

        if (h is [(byte)'P', (byte)'K', 3, 4, ..])
        {
            throw new InputFormatException(builder.Source, 0, 0, "the file is a zip archive; unpack it and read the file inside.");
        }

        Encoding encoding = Detect(h, builder, out bool isJson, out bool isXml, out CountingFallback? counter);
        if (isJson)
        {
            return GeoJsonReader.Read(whole, encoding, builder);
        }

        if (!isXml)
        {
            throw new InputFormatException(builder.Source, 1, 1, "neither XML nor JSON; expected GPX, GeoJSON or KML as text. Binary recordings of devices are not read: export them as GPX.");
        }

        using var text = new StreamReader(whole, encoding, detectEncodingFromByteOrderMarks: false, bufferSize: 1 << 16, leaveOpen: true);
        return RouteXmlReader.Read(text, builder, counter);
    }

    private static Encoding Detect(ReadOnlySpan<byte> h, RouteFileBuilder builder, out bool isJson, out bool isXml, out CountingFallback? counter)
    {
        counter = new CountingFallback();
        Encoding encoding = h switch
        {
            [0xFF, 0xFE, 0, 0, ..] => new UTF32Encoding(false, true),
            [0, 0, 0xFE, 0xFF, ..] => new UTF32Encoding(true, true),
            [0xFF, 0xFE, ..] or [(byte)'<' or (byte)'{' or (byte)'[', 0, ..] => new UnicodeEncoding(false, true),
            [0xFE, 0xFF, ..] or [0, (byte)'<' or (byte)'{' or (byte)'[', ..] => new UnicodeEncoding(true, true),
            _ => new UTF8Encoding(true),
        };
        bool fixedByMark = encoding is not UTF8Encoding || h is [0xEF, 0xBB, 0xBF, ..];
        string start = encoding.GetString(h).TrimStart('\uFEFF');
        string trimmed = start.TrimStart();
        isJson = trimmed.Length > 0 && trimmed[0] is '{' or '[';
        isXml = trimmed.Length > 0 && trimmed[0] == '<';
        if (isXml && !fixedByMark && trimmed.StartsWith("<?xml", StringComparison.Ordinal) && Declared(trimmed) is { } name)
        {
            Encoding? declared = Find(name);
            if (declared is null || (declared.GetByteCount("<") > 1))
            {
                builder.Lenient(RoutesFindingCodes.BadCharacters, 1, 1,
                    declared is null
                        ? $"The declared encoding '{Short(name)}' is not known; read as UTF-8."
                        : $"The declared encoding '{Short(name)}' is not what the bytes are; read as UTF-8.");
            }
            else
            {
                encoding = declared;
            }
        }

        var clone = (Encoding)encoding.Clone();
        clone.DecoderFallback = counter;
        return clone;
    }

    private static string Short(string name) => name.Length > 40 ? name[..40] : name;

    private static string? Declared(string start)
    {
        int end = start.IndexOf("?>", StringComparison.Ordinal);
        int at = start.IndexOf("encoding", StringComparison.Ordinal);
        if (at < 0 || end < at)
        {
            return null;
        }

        int open = start.AsSpan(at, end - at).IndexOfAny('"', '\'');
        if (open < 0)
        {
            return null;
        }

        open += at;
        int close = start.IndexOf(start[open], open + 1);
        return close < 0 || close > end ? null : start[(open + 1)..close].Trim();
    }

    private static Encoding? Find(string name)
    {
        if (name.Equals("utf-8", StringComparison.OrdinalIgnoreCase))
        {
            return new UTF8Encoding(true);
        }

        try
        {
            return CodePagesEncodingProvider.Instance.GetEncoding(name) ?? Encoding.GetEncoding(name);
        }
        catch (ArgumentException)
        {
            return null;
        }
        catch (NotSupportedException)
        {
            return null;
        }
    }

    /// <summary>Counts bytes that the encoding does not know; each becomes U+FFFD.</summary>
    internal sealed class CountingFallback : DecoderFallback
    {
        public long Count { get; private set; }

        public override int MaxCharCount => 1;

        public override DecoderFallbackBuffer CreateFallbackBuffer() => new Buffer(this);

        private sealed class Buffer(CountingFallback owner) : DecoderFallbackBuffer
        {
            private int _left;

            public override int Remaining => _left;

            public override bool Fallback(byte[] bytesUnknown, int index)
            {
                owner.Count++;
                _left = 1;
                return true;
            }

            public override char GetNextChar()
            {
                if (_left == 0)
                {
                    return '\0';
                }

                _left = 0;
                return '\uFFFD';
            }

            public override bool MovePrevious()
            {
                if (_left == 1)
                {
                    return false;
                }

                _left = 1;
                return true;
            }

            public override void Reset() => _left = 0;
        }
    }

    /// <summary>A stream with its first bytes put back.</summary>
    private sealed class Prefixed(byte[] head, int count, Stream rest) : ReadOnlyStream
    {
        private int _at;

        public override int Read(Span<byte> buffer)
        {
            if (_at < count)
            {
                int n = Math.Min(buffer.Length, count - _at);
                head.AsSpan(_at, n).CopyTo(buffer);
                _at += n;
                return n;
            }

            return rest.Read(buffer);
        }
    }

    /// <summary>Stops at the bound.</summary>
    private sealed class Bounded(Stream inner, string source, long limit) : ReadOnlyStream
    {
        private long _read;

        public override int Read(Span<byte> buffer)
        {
            int n = inner.Read(buffer);
            _read += n;
            return _read <= limit
                ? n
                : throw new InputFormatException(source, 0, 0, string.Create(CultureInfo.InvariantCulture, $"larger than {limit} bytes; the limit is RouteReadOptions.MaxBytes."));
        }
    }

    private abstract class ReadOnlyStream : Stream
    {
        public override bool CanRead => true;

        public override bool CanSeek => false;

        public override bool CanWrite => false;

        public override long Length => throw new NotSupportedException();

        public override long Position { get => throw new NotSupportedException(); set => throw new NotSupportedException(); }

        public abstract override int Read(Span<byte> buffer);

        public override int Read(byte[] buffer, int offset, int count) => Read(buffer.AsSpan(offset, count));

        public override void Flush()
        {
        }

        public override long Seek(long offset, SeekOrigin origin) => throw new NotSupportedException();

        public override void SetLength(long value) => throw new NotSupportedException();

        public override void Write(byte[] buffer, int offset, int count) => throw new NotSupportedException();
    }
}
