using EarHelp.Triage.Facts;

namespace EarHelp.Understanding.Lexicons;

/// <summary>What a phrase of the edition stands for.</summary>
abstract record Meaning
{
    Meaning()
    {
    }

    /// <summary>A value of a fact, or a range of values.</summary>
    /// <param name="Written">The value as a chosen answer writes it.</param>
    public sealed record OfValue(int Fact, ValueSet Values, string Written) : Meaning;

    public sealed record OfYes : Meaning;

    public sealed record OfNo : Meaning;

    public sealed record OfNotSure : Meaning;

    /// <param name="Screen">The checklist whose "none of these" it is, or null: any checklist's.</param>
    public sealed record OfNone(string? Screen) : Meaning;

    /// <param name="Key">Of the text that answers it.</param>
    public sealed record OfCourtesy(string Key) : Meaning;

    /// <param name="DaysAgo">0 today, 1 yesterday.</param>
    public sealed record OfDay(int DaysAgo) : Meaning;

    /// <param name="Number">1 to 12.</param>
    public sealed record OfMonth(int Number) : Meaning;
}
