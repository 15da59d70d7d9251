using System.Collections.Immutable;
using System.Text.Json;
using EarHelp.Conversation.Turns;
using EarHelp.Triage.Answers;

namespace EarHelp.Web.Bot;

/// <summary>
/// Reads what a program sends beside or instead of text: <c>{"answers":…,"chosen":[…],"none":…}</c>, <c>{"begin":"en"}</c>,
/// <c>{"change":…}</c>, <c>{"somethingChanged":true}</c>, <c>{"startOver":true}</c>, <c>{"goOn":true}</c>, <c>{"askAbout":"ANSWER"}</c>,
/// <c>{"shareWords":true}</c>.
/// </summary>
static class SentValueReader
{
    const string Left = "left";
    const string Right = "right";
    const string Either = "either";

    static readonly ImmutableArray<string> Known = ["answers", "chosen", "none", "begin", "change", "somethingChanged", "startOver", "goOn", "askAbout", "shareWords"];

    public static bool SaysSomething(JsonElement value) => value.EnumerateObject().Any(p => Known.Contains(p.Name));

    public static string NameOf(Ear ear) => ear switch
    {
        Ear.Left => Left,
        Ear.Right => Right,
        Ear.Either => Either,
        _ => throw new System.Diagnostics.UnreachableException(),
    };

    public static SentTurn Read(string id, JsonElement value, string? text)
    {
        try
        {
            return new SentTurn.Taken(Content(id, value, text));
        }
        catch (FormatException fault)
        {
            return new SentTurn.Unreadable(fault.Message);
        }
    }

    static Turn Content(string id, JsonElement value, string? text)
    {
        if (value.EnumerateObject().FirstOrDefault(p => !Known.Contains(p.Name)) is { Value.ValueKind: not JsonValueKind.Undefined } unknown)
            throw new FormatException($"\"{unknown.Name}\" is not known; known are {string.Join(", ", Known)}.");
        var answers = value.TryGetProperty("answers", out var question) ? Name(question) : null;
        if (value.TryGetProperty("chosen", out var chosen) || value.TryGetProperty("none", out _))
            return new Turn(id, answers, Chosen(value, chosen));
        if (value.TryGetProperty("begin", out var language))
            return new Turn(id, null, new TurnContent.Begin(Text(language, "begin")));
        if (value.TryGetProperty("change", out var change))
            return new Turn(id, null, new TurnContent.Change(Text(Member(change, "screen"), "screen"), EarOf(change)));
        if (value.TryGetProperty("askAbout", out var answer))
            return new Turn(id, null, new TurnContent.AskAbout(Text(answer, "askAbout")));
        if (value.TryGetProperty("shareWords", out _))
            return new Turn(id, null, new TurnContent.ShareWords(IsTrue(value, "shareWords")));
        if (IsTrue(value, "somethingChanged"))
            return new Turn(id, null, new TurnContent.SomethingChanged());
        if (IsTrue(value, "startOver"))
            return new Turn(id, null, new TurnContent.StartOver());
        if (IsTrue(value, "goOn"))
            return new Turn(id, null, new TurnContent.GoOn());
        return string.IsNullOrWhiteSpace(text)
            ? throw new FormatException("The value says nothing: send chosen answers, a text, or one of begin, change, somethingChanged, startOver, goOn, askAbout, shareWords.")
            : new Turn(id, answers, new TurnContent.Typed(text));
    }

    static TurnContent.Chosen Chosen(JsonElement value, JsonElement chosen)
    {
        var answers = chosen.ValueKind switch
        {
            JsonValueKind.Undefined => [],
            JsonValueKind.Array => chosen.EnumerateArray().Select(Answer).ToImmutableArray(),
            _ => throw new FormatException("\"chosen\" is a list of {\"fact\", \"value\"} or {\"fact\", \"notSure\": true}."),
        };
        return new TurnContent.Chosen(answers, IsTrue(value, "none"));
    }

    static ChosenAnswer Answer(JsonElement answer)
    {
        var fact = Text(Member(answer, "fact"), "fact");
        var isNotSure = IsTrue(answer, "notSure");
        var value = answer.TryGetProperty("value", out var written) ? written : default;
        return value.ValueKind switch
        {
            JsonValueKind.String when !isNotSure => new ChosenAnswer(fact, value.GetString(), false),
            JsonValueKind.Number when !isNotSure => new ChosenAnswer(fact, value.GetRawText(), false),
            JsonValueKind.Undefined or JsonValueKind.Null when isNotSure => new ChosenAnswer(fact, null, true),
            _ => throw new FormatException($"The answer to \"{fact}\" needs either a value or \"notSure\": true."),
        };
    }

    static QuestionName Name(JsonElement question) => new(
        Text(Member(question, "screen"), "screen"),
        EarOf(question),
        Whole(question, "wording"),
        Whole(question, "askedInTurn"));

    static Ear? EarOf(JsonElement named) =>
        !named.TryGetProperty("ear", out var ear) || ear.ValueKind == JsonValueKind.Null
            ? null
            : Text(ear, "ear") switch
            {
                Left => Ear.Left,
                Right => Ear.Right,
                Either => Ear.Either,
                var other => throw new FormatException($"\"{other}\" is not an ear; an ear is left, right, either or null."),
            };

    static JsonElement Member(JsonElement of, string name) =>
        of.ValueKind == JsonValueKind.Object && of.TryGetProperty(name, out var member)
            ? member
            : throw new FormatException($"\"{name}\" is missing.");

    static string Text(JsonElement value, string name) =>
        value.ValueKind == JsonValueKind.String ? value.GetString()! : throw new FormatException($"\"{name}\" is a text.");

    static int Whole(JsonElement of, string name) =>
        Member(of, name) is { ValueKind: JsonValueKind.Number } number && number.TryGetInt32(out var whole)
            ? whole
            : throw new FormatException($"\"{name}\" is a whole number.");

    static bool IsTrue(JsonElement of, string name) =>
        of.TryGetProperty(name, out var value) && value.ValueKind switch
        {
            JsonValueKind.True => true,
            JsonValueKind.False => false,
            _ => throw new FormatException($"\"{name}\" is true or false."),
        };
}
