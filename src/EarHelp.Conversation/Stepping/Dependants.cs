using System.Collections.Immutable;
using EarHelp.Conversation.States;
using EarHelp.Triage.Answers;

namespace EarHelp.Conversation.Stepping;

/// <summary>Answers that no longer apply after another answer has changed.</summary>
static class Dependants
{
    /// <summary>Drops them, and says which.</summary>
    public static IReadOnlyList<FactOfEar> Drop(Draft draft)
    {
        List<FactOfEar>? dropped = null;
        var views = draft.View();
        for (var i = draft.Answers.Length - 1; i >= 0; i--)
        {
            var of = draft.Answers[i].Of;
            if (StillApplies(views, of))
                continue;
            draft.Remove(of);
            (dropped ??= []).Insert(0, of);
        }

        draft.SecondWordingDue = draft.SecondWordingDue.RemoveAll(of => !StillApplies(views, of));
        return dropped ?? (IReadOnlyList<FactOfEar>)[];
    }

    /// <summary>A fact about an ear that is not spoken about does not apply.</summary>
    static bool StillApplies(ImmutableArray<EarAnswers> views, FactOfEar of)
    {
        foreach (var view in views)
        {
            if ((of.Ear is null || of.Ear == view.Ear) && view.OfFact[of.Fact] is not Answer.NotApplicable)
                return true;
        }

        return false;
    }
}
