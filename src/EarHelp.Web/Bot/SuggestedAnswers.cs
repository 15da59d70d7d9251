using EarHelp.Conversation.Replies;
using EarHelp.Conversation.Telling;
using EarHelp.Conversation.Turns;
using EarHelp.Triage.Asking;
using Microsoft.Bot.Schema;
using Newtonsoft.Json.Linq;

namespace EarHelp.Web.Bot;

/// <summary>Buttons for a question that one tap can answer. What a button sends names the question, so that a late tap answers no other.</summary>
static class SuggestedAnswers
{
    public static IEnumerable<CardAction> Of(LetterPart part) => part switch
    {
        LetterPart.Asked { Question: { Question.Kind: QuestionKind.OneFact } shown } => OneFact(shown),
        LetterPart.Asked { Question: { Question.Kind: QuestionKind.Checklist, None: { } none } shown } =>
            [Button(none, shown.Question.Name, [], isNone: true)],
        LetterPart.ReadBackShown shown =>
        [
            Button(shown.Yes, shown.Name, Confirmed(shown, _ => true), isNone: false),
            Button(shown.No, shown.Name, [], isNone: false),
            .. shown.Understood.Length < 2 ? [] : shown.Understood.Select(wrong => Button(wrong.Wrong, shown.Name, Confirmed(shown, u => u != wrong), isNone: false)),
        ],
        LetterPart.SharingOffered sharing => [Button(sharing.Label, new JObject { ["shareWords"] = sharing.Allows })],
        LetterPart.TopicsOffered offered => offered.Topics.Select(t => Button(t.Title, new JObject { ["askAbout"] = t.Id })),
        _ => [],
    };

    static IEnumerable<ChosenAnswer> Confirmed(LetterPart.ReadBackShown shown, Func<UnderstoodShown, bool> isRight) =>
        shown.Understood.Where(isRight).Select(u => new ChosenAnswer(u.Of.Fact, u.Of.Value, NotSure: false));

    static IEnumerable<CardAction> OneFact(QuestionShown shown)
    {
        var fact = shown.Facts[0];
        foreach (var option in fact.Options)
            yield return Button(option.Label, shown.Question.Name, [new ChosenAnswer(fact.Asked.Fact, option.Value, NotSure: false)], isNone: false);
        if (fact.NotSure is { } notSure)
            yield return Button(notSure, shown.Question.Name, [new ChosenAnswer(fact.Asked.Fact, null, NotSure: true)], isNone: false);
    }

    static CardAction Button(string label, QuestionName name, IEnumerable<ChosenAnswer> chosen, bool isNone) => Button(label, new JObject
    {
        ["answers"] = new JObject
        {
            ["screen"] = name.Screen,
            ["ear"] = name.Ear is { } ear ? SentValueReader.NameOf(ear) : null,
            ["wording"] = name.Wording,
            ["askedInTurn"] = name.AskedInTurn,
        },
        ["chosen"] = new JArray(chosen.Select(c => c.NotSure
            ? new JObject { ["fact"] = c.Fact, ["notSure"] = true }
            : new JObject { ["fact"] = c.Fact, ["value"] = c.Value })),
        ["none"] = isNone,
    });

    static CardAction Button(string label, JObject value) => new()
    {
        Type = ActionTypes.MessageBack,
        Title = label,
        Text = label,
        DisplayText = label,
        Value = value,
    };
}
