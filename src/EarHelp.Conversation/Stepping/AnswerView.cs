using System.Collections.Immutable;
using EarHelp.Conversation.States;
using EarHelp.Triage.Answers;
using EarHelp.Triage.Editions;
using EarHelp.Triage.Facts;
using NodaTime;

namespace EarHelp.Conversation.Stepping;

/// <summary>What was said, as sets of values at a moment. Numbers counted from dates cover every moment since the first answer.</summary>
static class AnswerView
{
    public const string EarsAffected = "ears affected";

    public static ImmutableArray<EarAnswers> Of(ServedEdition edition, ConversationState state, Instant now)
    {
        var ears = EarsOf(edition.Dialog, state);
        var views = ImmutableArray.CreateBuilder<EarAnswers>(ears.Length);
        foreach (var ear in ears)
            views.Add(new EarAnswers(ear, OfEar(edition, state, ear, now)));
        return views.MoveToImmutable();
    }

    /// <summary>The ears that are spoken about; one that cannot be told, until it is known which.</summary>
    public static ImmutableArray<Ear> EarsOf(Dialog dialog, ConversationState state)
    {
        if (dialog.FindFact(EarsAffected) is not { } fact
            || state.Answers.Find(new FactOfEar(fact.Index, null)) is not Said.Values { Set.Only: { } index }
            || IsDoubted(state, new FactOfEar(fact.Index, null)))
        {
            return [Ear.Either];
        }

        return fact.Values.NameOf(index) switch
        {
            "left" => [Ear.Left],
            "right" => [Ear.Right],
            _ => [Ear.Left, Ear.Right],
        };
    }

    public static ValueSet ValuesOf(ServedEdition edition, ConversationState state, Fact fact, Said said, Instant now) => said switch
    {
        Said.Values values => values.Set,
        Said.Days days => Counted(fact, DaysSince(edition, days.To, state.FirstAnswerAt ?? now), DaysSince(edition, days.From, now)),
        Said.Moments moments => Counted(fact, HoursSince(moments.To, state.FirstAnswerAt ?? now), HoursSince(moments.From, now)),
        _ => fact.Values.All,
    };

    static ImmutableArray<Answer> OfEar(ServedEdition edition, ConversationState state, Ear ear, Instant now)
    {
        var facts = edition.Dialog.Facts;
        var answers = ImmutableArray.CreateBuilder<Answer>(facts.Length);
        foreach (var fact in facts)
        {
            var of = new FactOfEar(fact.Index, fact.About == About.Ear ? ear : null);
            var said = state.Answers.Find(of);
            answers.Add(
                said is null ? Answer.Unknown
                : IsDoubted(state, of) ? new Answer.Asked(fact.Values.All)
                : new Answer.Asked(ValuesOf(edition, state, fact, said, now)));
        }

        return answers.MoveToImmutable();
    }

    static bool IsDoubted(ConversationState state, FactOfEar of) => state.Doubted.Contains(of);

    static ValueSet Counted(Fact fact, long least, long most)
    {
        var numbers = (FactValues.Numbers)fact.Values;
        var first = Math.Clamp(least, (long)numbers.From, (long)numbers.To);
        var last = Math.Clamp(most, first, (long)numbers.To);
        return numbers.Between(first, last);
    }

    static long DaysSince(ServedEdition edition, LocalDate day, Instant at) =>
        Period.DaysBetween(day, at.InZone(edition.Edition.Clinic.Zone).Date);

    static long HoursSince(Instant from, Instant at) => (long)Math.Floor((at - from).TotalHours);
}
