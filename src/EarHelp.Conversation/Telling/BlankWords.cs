using System.Collections.Immutable;
using EarHelp.Conversation.Replies;
using EarHelp.Triage.Answers;
using NodaTime.Text;

namespace EarHelp.Conversation.Telling;

/// <summary>Puts what fills a blank into words (see <see cref="Blank"/>).</summary>
static class BlankWords
{
    /// <summary>The words of all blanks of a name, with commas between; null if there is none.</summary>
    public static string? Of(LetterWriter writer, TimeWords times, ImmutableArray<Blank> blanks, string name)
    {
        string? words = null;
        foreach (var blank in blanks)
        {
            if (!string.Equals(blank.Name, name, StringComparison.Ordinal))
                continue;
            var one = One(writer, times, blank.Value);
            words = words is null ? one : words + ", " + one;
        }

        return words;
    }

    static string One(LetterWriter writer, TimeWords times, string value)
    {
        var colon = value.IndexOf(':', StringComparison.Ordinal);
        if (colon < 0)
            return value;
        var rest = value[(colon + 1)..];
        switch (value[..colon])
        {
            case "fact":
                var (fact, ear) = Split(rest);
                return writer.Brief(fact, ear);
            case "screen":
                var (screen, ofEar) = Split(rest);
                return writer.BriefOfScreen(screen, ofEar);
            case "answer":
                var equals = rest.IndexOf('=', StringComparison.Ordinal);
                var (answered, answeredEar) = Split(rest[..equals]);
                var written = rest[(equals + 1)..];
                return $"{writer.Brief(answered, answeredEar)}: {writer.Value(answered, written == AnswerTold.Unsure ? null : written)}";
            case "date":
                return LocalDatePattern.Iso.Parse(rest) is { Success: true } date ? times.Date(date.Value) : rest;
            case "words":
                return writer.Text(rest);
            default:
                return rest;
        }
    }

    static (string Id, Ear? Ear) Split(string name)
    {
        var at = name.IndexOf('@', StringComparison.Ordinal);
        return at < 0 ? (name, null) : (name[..at], Enum.Parse<Ear>(name[(at + 1)..], ignoreCase: true));
    }
}
