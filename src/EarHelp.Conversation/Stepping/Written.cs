using EarHelp.Conversation.States;
using EarHelp.Triage.Facts;
using EarHelp.Understanding.Lexicons;
using NodaTime.Text;

namespace EarHelp.Conversation.Stepping;

/// <summary>Writes what was said as a chosen answer does.</summary>
static class Written
{
    /// <returns>Null: not sure.</returns>
    public static string? Of(Fact fact, Said said) => said switch
    {
        Said.NotSure => null,
        Said.Values values => WrittenValue.Of(fact, values.Set),
        Said.Days days => Range(LocalDatePattern.Iso.Format(days.From), LocalDatePattern.Iso.Format(days.To)),
        Said.Moments moments =>
            Range(InstantPattern.ExtendedIso.Format(moments.From), InstantPattern.ExtendedIso.Format(moments.To)),
        _ => throw new System.Diagnostics.UnreachableException(),
    };

    static string Range(string from, string to) => string.Equals(from, to, StringComparison.Ordinal) ? from : from + ".." + to;
}
