namespace SoloRide.Tests;

/// <summary>What a test shows about an entry of the library.</summary>
public enum CheckKind
{
    /// <summary>A caller's mistake gives a clear error or finding.</summary>
    BadInput,

    /// <summary>A law that holds for any input.</summary>
    Property,

    /// <summary>Agreement with a source outside the project, named beside the expected values.</summary>
    Outside,

    /// <summary>Today's own result, kept to notice change.</summary>
    Regression,
}

/// <summary>Joins a test to the public entry that it checks; a convention test counts them.</summary>
[AttributeUsage(AttributeTargets.Method | AttributeTargets.Class, AllowMultiple = true)]
public sealed class ChecksAttribute(Type entry, CheckKind kind) : Attribute
{
    public Type Entry { get; } = entry;

    public CheckKind Kind { get; } = kind;
}
