using System.Collections.Immutable;
using EarHelp.Conversation.Replies;
using EarHelp.Conversation.Turns;
using EarHelp.Triage.Editions;
using EarHelp.Triage.Facts;
using EarHelp.Triage.Rules;

namespace EarHelp.Clinic.Desk;

/// <summary>What was asked and answered, in the order in which a clinician needs it. Every answer stands in exactly one part.</summary>
/// <param name="DangerSigns">Danger signs that are there, or of which nobody can be sure.</param>
/// <param name="Dates">When it began, how long it took, and every other date and length of time.</param>
/// <param name="MattersForTreating">Medicines, operations and whatever else decides whether and how the clinic may treat: what the dialog's
/// rules on treating and its items to protect depend on, where the answer is not the clear one; what the form at the start asks is left out.</param>
/// <param name="NotKnown">Answered "not sure", or not answered any more.</param>
/// <param name="Others">Everything else that is not a plain no.</param>
/// <param name="PlainNos">Asked, and nothing there.</param>
/// <param name="OwnWords">What the person typed, in order.</param>
public sealed record Handover(
    ImmutableArray<AnswerTold> DangerSigns,
    ImmutableArray<AnswerTold> Dates,
    ImmutableArray<AnswerTold> MattersForTreating,
    ImmutableArray<AnswerTold> NotKnown,
    ImmutableArray<AnswerTold> Others,
    ImmutableArray<AnswerTold> PlainNos,
    ImmutableArray<string> OwnWords)
{
    /// <param name="told">The outcome that was told last.</param>
    /// <param name="turns">All turns of the conversation in order.</param>
    public static Handover Of(Dialog dialog, OutcomeTold told, IEnumerable<Turn> turns)
    {
        ArgumentNullException.ThrowIfNull(dialog);
        ArgumentNullException.ThrowIfNull(told);
        ArgumentNullException.ThrowIfNull(turns);
        var treating = FactsOfTreating(dialog);
        var parts = told.Answers.ToLookup(a => PartOf(a, dialog.FindFact(a.Fact), treating));
        return new Handover(
            [.. parts[Part.DangerSign]],
            [.. parts[Part.Date]],
            [.. parts[Part.Treating]],
            [.. parts[Part.NotKnown]],
            [.. parts[Part.Other]],
            [.. parts[Part.PlainNo]],
            [.. turns.Select(t => t.Content).OfType<TurnContent.Typed>().Select(t => t.Text)]);
    }

    static Part PartOf(AnswerTold answer, Fact? fact, HashSet<int> treating)
    {
        if (answer.IsRedFlag || answer.Earlier is not null)
            return Part.DangerSign;
        if (answer.Value is null or AnswerTold.NotAnswered)
            return Part.NotKnown;
        if (fact is null)
            return Part.Other;
        if (fact.Counted is not null || fact.Values is FactValues.Numbers { Unit: "days" or "hours" })
            return Part.Date;
        var isClear = fact.Clear is { } clear && answer.Value == fact.Values.NameOf(clear);
        if (isClear && fact.IsYesNo)
            return Part.PlainNo;
        return treating.Contains(fact.Index) && !isClear && fact.AskIn != AskIn.Form ? Part.Treating : Part.Other;
    }

    static HashSet<int> FactsOfTreating(Dialog dialog)
    {
        var facts = new HashSet<int>();
        var conditions = dialog.TreatRules.SelectMany(r => r.Conditions)
            .Concat(dialog.Advice.Where(a => a.Kind == AdviceKind.Protect).SelectMany(a => a.OnlyIf));
        foreach (var condition in conditions)
            Add(condition.Of);
        return facts;

        void Add(FactReference reference)
        {
            if (!reference.IsNamedFact)
                facts.Add(reference.Index);
            else
                foreach (var part in dialog.NamedFacts[reference.Index].Rows.SelectMany(r => r.Conditions))
                    Add(part.Of);
        }
    }

    enum Part
    {
        DangerSign,
        Date,
        Treating,
        NotKnown,
        Other,
        PlainNo,
    }
}
