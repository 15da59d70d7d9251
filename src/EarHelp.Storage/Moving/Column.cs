namespace EarHelp.Storage.Moving;

/// <summary>One value of a row.</summary>
/// <param name="MayBeMissing">True if null is a value of it.</param>
sealed record Column(string Name, ColumnKind Kind, bool MayBeMissing = false);

/// <summary>What a column holds, and as what it stands in a row.</summary>
enum ColumnKind
{
    /// <summary>A <see cref="string"/>.</summary>
    Text,

    /// <summary>An <see cref="int"/>.</summary>
    Number,

    /// <summary>A <see cref="long"/>.</summary>
    LongNumber,

    /// <summary>A <see cref="bool"/>.</summary>
    Flag,

    /// <summary>An array of bytes.</summary>
    Bytes,
}
