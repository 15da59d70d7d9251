using System.Collections.Immutable;
using EarHelp.Triage.Answers;
using EarHelp.Triage.Editions;
using EarHelp.Triage.Facts;

namespace EarHelp.Content.Patients;

/// <summary>Turns what is written of a patient into answers about the person and each ear spoken of.</summary>
/// <param name="isClosed">Facts not given count as asked and clear where they have a clear value.</param>
public sealed class PatientAnswers(Dialog dialog, bool isClosed)
{
    /// <summary>The answers, or what is impossible about them.</summary>
    public (ImmutableArray<EarAnswers> Ears, ImmutableArray<string> Faults) Of(ImmutableArray<GivenValue> given)
    {
        if (EarsSpokenOf.Of(dialog, given) is not { } ears)
            return ([], [$"It gives values for an ear that \"{KnownFacts.EarsAffected}\" rules out."]);
        if (ears.TheOne is null && given.FirstOrDefault(g => g.Fact.About == About.Ear && g.Ear is null) is { } unclear)
            return ([], [$"\"{unclear.Fact.Id}\": both ears are spoken of; give {{\"left\": …, \"right\": …}}."]);
        var answers = ears.Assessed.Select(ear => new EarAnswers(ear, [.. dialog.Facts.Select(f => AnswerOf(f, ear, ears, given))])).ToImmutableArray();
        return (answers, [.. answers.SelectMany(a => Contradictions(a, given)).Distinct()]);
    }

    Answer AnswerOf(Fact fact, Ear ear, EarsSpokenOf ears, ImmutableArray<GivenValue> given)
    {
        if (string.Equals(fact.Id, KnownFacts.EarsAffected, StringComparison.Ordinal))
            return ears.Affected;
        var said = given.FirstOrDefault(g => g.Fact == fact && (fact.About == About.Person || (g.Ear ?? ears.TheOne) == ear));
        if (said is not null)
            return new Answer.Asked(said.MayBe);
        return isClosed && fact.Clear is { } clear ? new Answer.Asked(ValueSet.Of(clear)) : Answer.Unknown;
    }

    /// <summary>Answers that certainly cannot stand together, and answers to what certainly does not apply (its clear value apart).</summary>
    IEnumerable<string> Contradictions(EarAnswers answers, ImmutableArray<GivenValue> given)
    {
        var holds = new WhatHolds(dialog, answers.OfFact);
        foreach (var pair in dialog.Impossible.Where(p => holds.Holds(p.One) == true && holds.Holds(p.Other) == true))
            yield return $"This is impossible: {NameOf(pair.One)} is {pair.One.Written} and {NameOf(pair.Other)} is {pair.Other.Written}; {pair.Because}.";
        foreach (var fact in given.Where(g => g.Ear is null || g.Ear == answers.Ear).Select(g => g.Fact))
        {
            if (holds.Applies(fact) == false && answers.OfFact[fact.Index] is Answer.Asked asked && !(fact.Clear is { } clear && asked.MayBe.Contains(clear)))
                yield return $"This is impossible: \"{fact.Id}\" does not apply, since {string.Join("; ", fact.AppliesWhen.Select(c => $"{NameOf(c)}: {c.Written}"))} is not so.";
        }
    }

    string NameOf(Triage.Rules.Condition condition) =>
        condition.Of.IsNamedFact ? dialog.NamedFacts[condition.Of.Index].Id : dialog.Facts[condition.Of.Index].DecidingId;
}
