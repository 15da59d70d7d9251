using EarHelp.Conversation.Replies;
using EarHelp.Conversation.States;
using EarHelp.Triage.Answers;
using EarHelp.Triage.Facts;

namespace EarHelp.Conversation.Stepping;

/// <summary>A danger sign that was mentioned: its emergency text at once, and the direct question first. It never settles anything.</summary>
static class Concerns
{
    /// <summary>Shows the text of the level that the sign would lead to, and has it asked first.</summary>
    /// <param name="ear">Of a fact about an ear: which, or null if it was not said.</param>
    /// <param name="isShown">False if a text of its own is shown for it.</param>
    /// <returns>False if it is a clear value, or was already answered so.</returns>
    public static bool Raise(Draft draft, int fact, Ear? ear, ValueSet values, bool isShown = true)
    {
        if (draft.Edition.Dialog.Facts[fact].Clear is { } clear && values.Only == clear)
            return false;
        var isRaised = AskFirst(draft, fact, ear, values);
        if (isRaised && isShown)
            Show(draft, fact, ear, values);
        return isRaised;
    }

    /// <summary>True if the text of an emergency, or of the most urgent level, is shown in this turn.</summary>
    public static bool IsEmergency(Draft draft) =>
        draft.Replies.Exists(r => r is Reply.Alarm alarm && (alarm.Signpost is not null || alarm.Level == draft.Edition.Dialog.Levels[0].Id));

    /// <summary>Has the fact asked first, in each ear that it may be about, where the value is not already its answer.</summary>
    /// <param name="values">Null: it was only mentioned, so any answer will do.</param>
    public static bool AskFirst(Draft draft, int fact, Ear? ear, ValueSet? values)
    {
        var isAny = false;
        foreach (var one in draft.Ears())
        {
            if (ear is { } said && said != one && draft.Edition.IsOfEar(fact) && draft.Ears().Contains(said))
                continue;
            var of = draft.Place(fact, one);
            if (!IsAnswered(draft, of, values))
            {
                if (!draft.Raised.Contains(of))
                    draft.Raised = draft.Raised.Add(of);
                isAny = true;
            }

            if (of.Ear is null)
                break;
        }

        return isAny;
    }

    /// <summary>A clear answer is asked about again; another one only if the value would make it more urgent.</summary>
    static bool IsAnswered(Draft draft, FactOfEar of, ValueSet? values)
    {
        switch (draft.FindCounted(of))
        {
            case null:
                return false;
            case Said.Values { Set: var answered } when values is not null && !values.IsSubsetOf(answered):
                var isClear = draft.Edition.Dialog.Facts[of.Fact].Clear is { } clear && answered.Only == clear;
                return !isClear && Alarms.Of(draft, of, draft.Edition.SaidOf(of.Fact, values)) is null;
            default:
                return true;
        }
    }

    static void Show(Draft draft, int fact, Ear? ear, ValueSet values)
    {
        var of = draft.Place(fact, ear ?? draft.Ears()[0]);
        if (Alarms.Of(draft, of, draft.Edition.SaidOf(fact, values)) is { } alarm && !draft.Replies.Contains(alarm))
            draft.Replies.Add(alarm);
    }
}
