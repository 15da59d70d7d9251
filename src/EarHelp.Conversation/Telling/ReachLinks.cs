using EarHelp.Triage.Texts;

namespace EarHelp.Conversation.Telling;

/// <summary>Numbers and addresses in a text are links, so that one touch calls, texts or writes.</summary>
static class ReachLinks
{
    /// <returns>The filled blank; plain words where it is no way to reach somebody, or where words stand instead of a number.</returns>
    public static Inline Of(string blank, string value, bool isStrong) => blank switch
    {
        "emergency number" or "crisis line" or "clinic phone" or "clinic relay" when IsNumber(value) => new Inline.Link(value, "tel:" + Digits(value)),
        "clinic text" when IsNumber(value) => new Inline.Link(value, "sms:" + Digits(value)),
        "clinic email" when value.Contains('@', StringComparison.Ordinal) => new Inline.Link(value, "mailto:" + value),
        _ => new Inline.Run(value, isStrong, IsEmphasised: false),
    };

    static bool IsNumber(string value) => value.Length > 0 && value.All(c => char.IsAsciiDigit(c) || c is ' ' or '+' or '-');

    static string Digits(string value) => string.Concat(value.Where(c => char.IsAsciiDigit(c) || c == '+'));
}
