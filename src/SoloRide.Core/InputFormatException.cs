using System.Globalization;

namespace SoloRide;

/// <summary>A file or text that cannot be read. Says which, where, and what was expected.</summary>
public sealed class InputFormatException : FormatException
{
    /// <summary>Makes the exception.</summary>
    /// <param name="source">File name or other name of the input.</param>
    /// <param name="line">Line, from 1; 0 when unknown.</param>
    /// <param name="position">Position in the line, from 1; 0 when unknown.</param>
    /// <param name="reason">What is wrong and what was expected.</param>
    /// <param name="inner">The cause, if any.</param>
    public InputFormatException(string source, int line, int position, string reason, Exception? inner = null)
        : base(string.Create(CultureInfo.InvariantCulture, $"{source}, line {line}, position {position}: {reason}"), inner)
    {
        SourceName = source;
        Line = line;
        Position = position;
        Reason = reason;
    }

    /// <summary>Makes an exception with a message only.</summary>
    /// <param name="message">What is wrong.</param>
    public InputFormatException(string message)
        : this("input", 0, 0, message)
    {
    }

    /// <summary>Makes an exception with a message and a cause.</summary>
    /// <param name="message">What is wrong.</param>
    /// <param name="innerException">The cause.</param>
    public InputFormatException(string message, Exception innerException)
        : this("input", 0, 0, message, innerException)
    {
    }

    /// <summary>Makes an exception without details.</summary>
    public InputFormatException()
        : this("The input cannot be read.")
    {
    }

    /// <summary>File name or other name of the input.</summary>
    public string SourceName { get; }

    /// <summary>Line, from 1; 0 when unknown.</summary>
    public int Line { get; }

    /// <summary>Position in the line, from 1; 0 when unknown.</summary>
    public int Position { get; }

    /// <summary>What is wrong and what was expected.</summary>
    public string Reason { get; }
}
