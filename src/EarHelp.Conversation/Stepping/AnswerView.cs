using System.Collections.Immutable;
using System.Runtime.InteropServices;
using EarHelp.Conversation.States;
using EarHelp.Triage.Answers;
using EarHelp.Triage.Facts;
using NodaTime;

namespace EarHelp.Conversation.Stepping;

/// <summary>What was said, as sets of values at a moment. Numbers counted from dates cover every moment since the first answer.</summary>
static class AnswerView
{
    static readonly ImmutableArray<Ear> OnlyLeft = [Ear.Left];
    static readonly ImmutableArray<Ear> OnlyRight = [Ear.Right];
    static readonly ImmutableArray<Ear> Both = [Ear.Left, Ear.Right];
    static readonly ImmutableArray<Ear> Untold = [Ear.Either];

    /// <param name="recorded">What counts whatever was answered.</param>
    /// <param name="doubted">Facts that count as "not sure".</param>
    public static ImmutableArray<EarAnswers> Of(
        ServedEdition edition, ReadOnlySpan<GivenAnswer> answers, ImmutableArray<RecordedValue> recorded, ImmutableArray<FactOfEar> doubted, Instant first, Instant now)
    {
        var ears = EarsOf(edition, answers, doubted);
        var counting = new Counting(edition.Edition.Clinic.Zone, first, now);
        var views = ImmutableArray.CreateBuilder<EarAnswers>(ears.Length);
        foreach (var ear in ears)
            views.Add(new EarAnswers(ear, OfEar(edition, answers, recorded, doubted, ear, counting)));
        return views.MoveToImmutable();
    }

    /// <summary>The ears that are spoken about; "either" until it is known which.</summary>
    public static ImmutableArray<Ear> EarsOf(ServedEdition edition, ReadOnlySpan<GivenAnswer> answers, ImmutableArray<FactOfEar> doubted)
    {
        if (edition.EarsAffected is not { } fact || Find(answers, new FactOfEar(fact, null)) is not Said.Values { Set.Only: { } index }
            || doubted.Contains(new FactOfEar(fact, null)))
        {
            return Untold;
        }

        return edition.Dialog.Facts[fact].Values.NameOf(index) switch
        {
            "left" => OnlyLeft,
            "right" => OnlyRight,
            _ => Both,
        };
    }

    public static Said? Find(ReadOnlySpan<GivenAnswer> answers, FactOfEar of)
    {
        for (var i = 0; i < answers.Length; i++)
        {
            if (answers[i].Of == of)
                return answers[i].Said;
        }

        return null;
    }

    static ImmutableArray<Answer> OfEar(
        ServedEdition edition, ReadOnlySpan<GivenAnswer> answers, ImmutableArray<RecordedValue> recorded, ImmutableArray<FactOfEar> doubted, Ear ear, Counting counting)
    {
        var facts = edition.Dialog.Facts;
        var view = new Answer[facts.Length];
        Array.Fill(view, Answer.Unknown);
        for (var i = 0; i < answers.Length; i++)
        {
            var (of, said) = answers[i];
            if (of.Ear is null || of.Ear == ear)
                view[of.Fact] = doubted.Contains(of) ? edition.Unsure[of.Fact] : AnswerOf(edition, of.Fact, said, counting);
        }

        foreach (var value in recorded)
        {
            var fact = value.Of.Fact;
            if ((value.Of.Ear is null || value.Of.Ear == ear || ear == Ear.Either) && edition.AnswerOf(fact, value.Set) is Answer.Asked { MayBe: var set } answer)
                view[fact] = view[fact] is Answer.Asked said ? edition.AnswerOf(fact, said.MayBe.Union(set)) : answer;
        }

        for (var fact = 0; fact < view.Length; fact++)
        {
            if (!facts[fact].AppliesWhen.IsEmpty && Holds.All(edition.Dialog, facts[fact].AppliesWhen.AsSpan(), view) == Truth.No)
                view[fact] = Answer.DoesNotApply;
        }

        return ImmutableCollectionsMarshal.AsImmutableArray(view);
    }

    static Answer AnswerOf(ServedEdition edition, int fact, Said said, Counting counting) => said switch
    {
        Said.Values values => edition.AnswerOf(fact, values.Set),
        Said.NotSure => edition.Unsure[fact],
        _ => edition.AnswerOf(fact, counting.Of(edition.Dialog.Facts[fact], said)),
    };
}
