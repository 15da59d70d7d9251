using System.Collections.Immutable;
using EarHelp.Conversation.Replies;
using EarHelp.Conversation.States;
using EarHelp.Conversation.Turns;
using EarHelp.Triage.Answers;
using EarHelp.Triage.Asking;

namespace EarHelp.Conversation.Stepping;

/// <summary>Reads back what was typed, and makes answers of what was confirmed. Danger signs and what forbids advice are never among it.</summary>
static class ReadingBack
{
    /// <summary>The screen of a question that reads back what was understood.</summary>
    public const string Screen = "read back";

    /// <summary>What was confirmed becomes an answer as soon as its fact applies and its ear is known; what was asked since is forgotten.</summary>
    public static void Settle(Draft draft)
    {
        draft.Heard = draft.Heard.RemoveAll(h => IsOver(draft, h));
        for (var i = 0; i < draft.Heard.Length; i++)
        {
            if (draft.Heard[i] is not { IsConfirmed: true } heard || PlaceOf(draft, heard) is not { } of || !Applies(draft, of))
                continue;
            draft.Heard = draft.Heard.RemoveAt(i);
            if (Read(draft, heard.Fact, heard.Value) is { } said)
                draft.Put(of, said);
            i = -1;
        }
    }

    /// <summary>Asks whether what was understood is right.</summary>
    /// <returns>False if nothing waits to be confirmed.</returns>
    public static bool Ask(Draft draft)
    {
        var understood = Open(draft);
        if (understood.IsEmpty)
            return false;
        var name = new QuestionName(Screen, null, 1, draft.Number);
        ImmutableArray<FactNamed> next = [.. draft.Raised.Select(of => new FactNamed(draft.Edition.Dialog.Facts[of.Fact].Id, NamedEar(of.Ear))).Distinct()];
        draft.Pending = new Pending(new Question(name, [], QuestionKind.Form), IsChange: false, understood) { AskedNext = next };
        draft.IsWithheld = false;
        draft.Replies.Add(new Reply.Confirm(name, understood) { AskedNext = next });
        return true;
    }

    /// <summary>What is sent back was right. If something else of it was not, that is asked at once; if nothing was, all is asked in its turn.</summary>
    public static void Take(Draft draft, ImmutableArray<ReadBack> understood, TurnContent.Chosen chosen)
    {
        draft.Pending = null;
        draft.NotUnderstood = 0;
        foreach (var read in understood)
        {
            var fact = draft.Edition.FactIndex(read.Fact)!.Value;
            var isRight = chosen.Answers.Any(a => a.Fact == read.Fact && a.Value == read.Value);
            if (draft.Heard.FirstOrDefault(h => h.Fact == fact && h.Ear == read.Ear && h.Value == read.Value) is { } heard)
                draft.Heard = isRight ? draft.Heard.Replace(heard, heard with { IsConfirmed = true }) : draft.Heard.Remove(heard);
            var of = draft.Place(fact, read.Ear ?? draft.Ears()[0]);
            if (!isRight && !chosen.Answers.IsEmpty && !draft.Raised.Contains(of))
                draft.Raised = draft.Raised.Add(of);
        }
    }

    /// <summary>A value as an answer; null: it is none.</summary>
    public static Said? Read(Draft draft, int fact, string value) =>
        new AnswerReader(draft.Edition, draft.Now).Read(fact, draft.Edition.AskedIn(draft.Language, fact), value).Said;

    static ImmutableArray<ReadBack> Open(Draft draft) =>
        [.. draft.Heard.Where(h => !h.IsConfirmed).OrderBy(h => h.Fact).Select(h => new ReadBack(draft.Edition.Dialog.Facts[h.Fact].Id, h.Ear, h.Value, h.Words))];

    static bool IsOver(Draft draft, Heard heard)
    {
        if (PlaceOf(draft, heard) is not { } of)
            return false;
        return draft.Find(of) is not null || draft.Recorded.Find(of) is not null || Applying(draft, of) == Truth.No;
    }

    static bool Applies(Draft draft, FactOfEar of) => Applying(draft, of) == Truth.Yes;

    static Truth Applying(Draft draft, FactOfEar of)
    {
        if (draft.View().FirstOrDefault(v => of.Ear is null || v.Ear == of.Ear) is not { } view)
            return Truth.No;
        var applies = draft.Edition.Dialog.Facts[of.Fact].AppliesWhen;
        return applies.IsEmpty ? Truth.Yes : Holds.All(draft.Edition.Dialog, applies.AsSpan(), view.OfFact.AsSpan());
    }

    /// <summary>Null while it is not known which ear is spoken about.</summary>
    static FactOfEar? PlaceOf(Draft draft, Heard heard)
    {
        if (!draft.Edition.IsOfEar(heard.Fact))
            return new FactOfEar(heard.Fact, null);
        return draft.Ears() switch
        {
            [Ear.Either] => null,
            [var only] => new FactOfEar(heard.Fact, heard.Ear ?? only),
            _ when heard.Ear is { } ear => new FactOfEar(heard.Fact, ear),
            _ => null,
        };
    }

    static Ear? NamedEar(Ear? ear) => ear is Ear.Either ? null : ear;
}
