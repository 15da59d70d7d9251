using System.Collections.Immutable;
using System.Globalization;
using EarHelp.Conversation.Replies;
using EarHelp.Conversation.Turns;
using EarHelp.Triage.Answers;
using EarHelp.Triage.Editions;
using NodaTime;
using NodaTime.Text;

namespace EarHelp.Conversation.Stepping;

/// <summary>The short texts that the conversation says, by key, with what fills their blanks.</summary>
static class Sayings
{
    /// <summary>Keys of the question whether clinicians may read what was not understood, and of what is said when they may.</summary>
    public const string ShareWords = "share words", WordsShared = "share words thanks";

    public static Reply.Say NothingChosen { get; } = Plain("nothing chosen");

    public static Reply.Say Plain(string key) => new(key, []);

    public static Reply.Say OutOfRange(decimal from, decimal to) =>
        new("number out of range", [new Blank("from", Figure(from)), new Blank("to", Figure(to))]);

    public static Reply.Say NotAStep(decimal step) => new("number step", [new Blank("step", Figure(step))]);

    public static Reply.Say DateNotUnderstood(LocalDate example) =>
        new("date not understood", [new Blank("example", Date(example))]);

    public static Reply.Say TooEarly(LocalDate from) => new("date too early", [new Blank("from", Date(from))]);

    public static Reply.Say TextTooLong(int most) => new("text too long", [new Blank("count", Figure(most))]);

    public static Reply.Say NotUnderstood(int inARow) => Plain(inARow switch
    {
        1 => "not understood 1",
        2 => "not understood 2",
        _ => "not understood 3",
    });

    /// <summary>Names each fact once for each ear.</summary>
    public static Reply.Say Listing(string key, Dialog dialog, IEnumerable<States.FactOfEar> facts) =>
        new(key, [.. facts.Select(f => new Blank("list", "fact:" + Name(dialog.Facts[f.Fact].Id, f.Ear)))]);

    public static Reply.Say Disagree(string first, string second) =>
        new("answers disagree", [new Blank("first", first), new Blank("second", second)]);

    /// <summary>An answer to an older question, as it was given.</summary>
    public static Reply.Say Stale(QuestionName? name, TurnContent content)
    {
        var blanks = ImmutableArray.CreateBuilder<Blank>();
        if (name is not null)
            blanks.Add(new Blank("question", "screen:" + Name(name.Screen, name.Ear)));
        switch (content)
        {
            case TurnContent.Chosen chosen:
                foreach (var answer in chosen.Answers)
                    blanks.Add(new Blank("answer", Answer(answer.Fact, name?.Ear, answer.NotSure ? null : answer.Value)));
                if (chosen.NoneOfThese)
                    blanks.Add(new Blank("answer", "words:none of these"));
                break;
            case TurnContent.Typed typed:
                blanks.Add(new Blank("answer", "text:" + typed.Text));
                break;
        }

        return new Reply.Say("stale answer", blanks.ToImmutable());
    }

    /// <param name="written">As in a chosen answer; null: not sure.</param>
    public static string Answer(string fact, Ear? ear, string? written) => "answer:" + Name(fact, ear) + "=" + (written ?? AnswerTold.Unsure);

    static string Name(string id, Ear? ear) => ear switch
    {
        null => id,
        Ear.Left => id + "@left",
        Ear.Right => id + "@right",
        _ => id + "@either",
    };

    static string Figure(decimal number) => number.ToString(CultureInfo.InvariantCulture);

    static string Date(LocalDate date) => "date:" + LocalDatePattern.Iso.Format(date);
}
