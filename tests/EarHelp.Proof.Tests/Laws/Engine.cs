using System.Collections.Immutable;
using EarHelp.Triage.Answers;
using EarHelp.Triage.Asking;
using EarHelp.Triage.Assessments;
using EarHelp.Triage.Editions;
using EarHelp.Triage.Facts;

namespace EarHelp.Proof.Tests.Laws;

/// <summary>What decides over the answers about one ear: the real engine, or one with a fault.</summary>
sealed record Engine(Func<ImmutableArray<Answer>, Assessment> Assess, Func<ImmutableArray<Answer>, ScreenToAsk?> Next)
{
    public static Engine Real(Dialog dialog)
    {
        var assessor = Assessor.Build(dialog);
        return new Engine(a => assessor.Assess([new EarAnswers(Ear.Left, a)]), a => assessor.NextScreen([new EarAnswers(Ear.Left, a)]));
    }

    /// <summary>With the sets of values read otherwise than they were given.</summary>
    public Engine Reading(Func<ValueSet, ValueSet> read) => this with
    {
        Assess = answers => Assess([.. answers.Select(a => a is Answer.Asked asked ? new Answer.Asked(read(asked.MayBe)) : a)]),
    };

    /// <summary>With another choice of what is asked next.</summary>
    public Engine Asking(Engine other) => this with { Next = other.Next };
}
