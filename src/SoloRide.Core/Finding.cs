using SoloRide.Internal;

namespace SoloRide;

/// <summary>One named value inside a <see cref="Finding"/>.</summary>
/// <param name="Name">What it is, with its unit, such as <c>gap_m</c>.</param>
/// <param name="Text">The value in the invariant culture.</param>
public sealed record FindingValue(string Name, string Text);

/// <summary>
/// Something a reader of a result should know: an assumption, a leniency, a limit of validity, a physical outcome that needs words.
/// </summary>
/// <remarks>Codes are stable and listed in docs/findings.md. Messages are English. Immutable.</remarks>
public sealed record Finding
{
    /// <summary>Makes a finding.</summary>
    /// <param name="code">Stable code such as <c>routes.no-heights</c>.</param>
    /// <param name="severity">How much it matters.</param>
    /// <param name="subject">What it is about: an input's name, a file and line, a place.</param>
    /// <param name="message">One or two sentences.</param>
    /// <param name="values">Named values, for programs.</param>
    /// <exception cref="ArgumentException">The code or message is empty.</exception>
    public Finding(string code, FindingSeverity severity, string subject, string message, params FindingValue[] values)
    {
        Code = Guard.NotEmpty(code);
        Severity = Guard.Defined(severity);
        Subject = Guard.NotNull(subject);
        Message = Guard.NotEmpty(message);
        Values = [.. Guard.NotNull(values)];
    }

    /// <summary>Stable code, listed in docs/findings.md.</summary>
    public string Code { get; }

    /// <summary>How much it matters.</summary>
    public FindingSeverity Severity { get; }

    /// <summary>What it is about.</summary>
    public string Subject { get; }

    /// <summary>One or two sentences in English.</summary>
    public string Message { get; }

    /// <summary>Named values, for programs.</summary>
    public IReadOnlyList<FindingValue> Values { get; }

    /// <summary>Same code, severity, subject, message and values.</summary>
    /// <param name="other">The other finding.</param>
    /// <returns>Whether all are equal.</returns>
    public bool Equals(Finding? other)
        => other is not null && Code == other.Code && Severity == other.Severity && Subject == other.Subject
            && Message == other.Message && Values.SequenceEqual(other.Values);

    /// <inheritdoc/>
    public override int GetHashCode() => HashCode.Combine(Code, Severity, Subject, Message);

    /// <summary>Severity, subject and message on one line.</summary>
    /// <returns>Text.</returns>
    public override string ToString() => Subject.Length == 0 ? $"{Severity}: {Message}" : $"{Severity}: {Subject}: {Message}";
}
