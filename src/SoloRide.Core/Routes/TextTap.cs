namespace SoloRide.Routes;

/// <summary>
/// Hands text to an XML reader in pieces, so that plain points can be read past it. While <see cref="Cutting"/>, each piece ends with the end tag of a
/// track point, or with the end of an empty one: when the XML reader stands on that very tag, it has taken all it was given, and what follows may be read
/// from here.
/// </summary>
internal sealed class TextTap(TextReader inner) : TextReader
{
    private const int Size = 1 << 16;
    private const string EndTag = "</trkpt>";
    private const string StartTag = "<trkpt";
    private readonly char[] _buffer = new char[Size];
    private int _at, _end;
    private bool _done, _lost;

    // Place of the next character to be handed out, as the XML reader counts it, and of the last cut.
    private int _line = 1, _column = 1, _cutLine = -1, _cutColumn;

    // What the XML reader did not see: lines in all, and columns on the line where it last stopped.
    private int _linesPast, _pastLine = -1, _columnsPast;

    /// <summary>Pieces end where track points end.</summary>
    public bool Cutting { get; set; }

    /// <summary>The XML reader, standing on a tag at this place, has taken all it was given.</summary>
    public bool IsCutAt(int line, int position) => !_lost && line == _cutLine && position == _cutColumn;

    /// <summary>The place in the file of a place the XML reader states.</summary>
    public (int Line, int Position) PlaceOf(int line, int position) => (line + _linesPast, line == _pastLine ? position + _columnsPast : position);

    /// <summary>Text not handed out yet, all that is in memory.</summary>
    public ReadOnlySpan<char> Ahead => _buffer.AsSpan(_at, _end - _at);

    /// <summary>Brings more text into memory behind <see cref="Ahead"/>; false when there is none or no room.</summary>
    public bool More()
    {
        if (_at > 0)
        {
            Ahead.CopyTo(_buffer);
            _end -= _at;
            _at = 0;
        }

        if (_done || _end == Size)
        {
            return false;
        }

        int n = inner.Read(_buffer, _end, Size - _end);
        _done = n == 0;
        _end += n;
        return n > 0;
    }

    /// <summary>Passes over text that the XML reader must not see.</summary>
    public void Pass(int length)
    {
        ReadOnlySpan<char> text = _buffer.AsSpan(_at, length);
        _at += length;
        int lines = text.Count('\n');
        (int line, int column) = PlaceOf(_line, _column);
        column = lines == 0 ? column + length : length - text.LastIndexOf('\n');
        line += lines;
        _linesPast = line - _line;
        _pastLine = _line;
        _columnsPast = column - _column;
    }

    public override int Read(char[] buffer, int index, int count)
    {
        if (count == 0 || (_at == _end && !More()))
        {
            return 0;
        }

        ReadOnlySpan<char> text = Ahead;
        text = text[..Math.Min(count, text.Length)];
        if (text[^1] == '\r' && text.Length > 1)
        {
            text = text[..^1];
        }

        // A carriage return alone is a line for the XML reader and not for this count: from there on no place is trusted.
        _lost = _lost || text.Count('\r') != text.Count("\r\n");
        _cutLine = -1;
        int cut = Cutting && !_lost ? text.IndexOf(EndTag) : -1;
        if (cut >= 0)
        {
            text = text[..(cut + EndTag.Length)];
        }
        else if (Cutting && !_lost && text.LastIndexOf("/>") is var close && close >= 0 && (cut = text[..close].LastIndexOf(StartTag)) >= 0)
        {
            text = text[..(close + 2)];
        }

        if (cut >= 0)
        {
            // The XML reader names the place of the tag's name.
            int name = cut + (text[cut + 1] == '/' ? 2 : 1), before = text[..name].Count('\n');
            _cutLine = _line + before;
            _cutColumn = before == 0 ? _column + name : name - text[..name].LastIndexOf('\n');
        }

        int lines = text.Count('\n');
        _line += lines;
        _column = lines == 0 ? _column + text.Length : text.Length - text.LastIndexOf('\n');

        text.CopyTo(buffer.AsSpan(index));
        _at += text.Length;
        return text.Length;
    }

    public override int Read()
    {
        var one = new char[1];
        return Read(one, 0, 1) == 0 ? -1 : one[0];
    }

    public override int Peek() => _at < _end || More() ? _buffer[_at] : -1;
}
