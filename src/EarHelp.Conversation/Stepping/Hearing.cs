using System.Collections.Immutable;
using EarHelp.Conversation.Replies;
using EarHelp.Conversation.States;
using EarHelp.Triage.Answers;
using EarHelp.Triage.Editions;
using EarHelp.Triage.Facts;
using EarHelp.Understanding.Messages;
using EarHelp.Understanding.Readings;

namespace EarHelp.Conversation.Stepping;

/// <summary>
/// What one message says, taken with care: a danger sign in any form leads to the direct question, one that is said shows its text at
/// once, and nothing that is denied, over, supposed or of somebody else answers it.
/// </summary>
sealed class Hearing(Draft draft, string text, Understanding.Messages.Said said, PlainAnswer? plain)
{
    readonly ServedEdition _edition = draft.Edition;
    readonly ImmutableArray<Signpost> _signposts = draft.Edition.Edition.Wordings[draft.Language].Signposts;

    public bool IsNothing => said.Facts.IsEmpty && said.Signposts.IsEmpty;

    /// <summary>The facts that were said or denied, each once, for telling what was understood.</summary>
    public IEnumerable<FactOfEar> Named =>
        said.Facts.Where(f => f.Standing is Standing.Affirmed or Standing.Denied).Select(f => draft.Place(f.Fact, EarOf(f))).Distinct();

    /// <summary>Shows what has to be shown at once, and notes what has to be asked first.</summary>
    /// <returns>True if there is anything of the kind.</returns>
    public bool Raise()
    {
        var isConcern = false;
        var isQuiet = false;
        var before = draft.Raised;
        foreach (var (signpost, standing) in Signposts())
            isConcern |= Show(_signposts[signpost], standing, ref isQuiet);
        foreach (var fact in said.Facts.Where(f => _edition.IsRedFlag(f.Fact) && !IsPlain(f.Fact)).OrderBy(f => f.Standing).ThenBy(f => f.Fact))
            isConcern |= RaiseOne(fact);
        if (isQuiet && !Concerns.IsEmergency(draft))
            draft.Say("emergency mentioned");
        draft.Raised = [.. draft.Raised.RemoveAll(before.Contains).Concat(before)];
        return isConcern;
    }

    /// <summary>Notes what may become an answer once it is confirmed: a single value of a fact that is not asked directly in any case.</summary>
    public void Keep()
    {
        if (draft.Told is not null && draft.Pending is null)
            return;
        foreach (var heard in Understood())
        {
            draft.Heard = draft.Heard.RemoveAll(h => h.Fact == heard.Fact && (h.Ear == heard.Ear || h.Ear is null || heard.Ear is null));
            draft.Heard = draft.Heard.Add(heard);
        }

        ReadingBack.Settle(draft);
    }

    /// <summary>Emergencies that have phrases of their own, and those whose fact was said.</summary>
    IEnumerable<(int Signpost, Standing Standing)> Signposts()
    {
        var found = said.Signposts.Select(s => (s.Signpost, s.Standing)).ToList();
        foreach (var fact in said.Facts)
        {
            for (var i = 0; i < _signposts.Length; i++)
            {
                if (_signposts[i].Claims.Any(c => !c.Of.IsNamedFact && c.Of.Index == fact.Fact && SetOf(fact).IsSubsetOf(c.Values)))
                    found.Add((i, fact.Standing));
            }
        }

        return found.GroupBy(f => f.Item1).Select(g => (g.Key, g.Min(f => f.Item2 == Standing.Supposed ? Standing.Affirmed : f.Item2))).OrderBy(f => f.Key);
    }

    /// <summary>
    /// An emergency that is there, or may be, shows its text. Of one that is denied, over or of somebody else only the direct question
    /// comes; where there is none, a quiet line says whom to call if it is happening now.
    /// </summary>
    bool Show(Signpost signpost, Standing standing, ref bool isQuiet)
    {
        var isNow = standing == Standing.Affirmed;
        var isAsked = false;
        foreach (var claim in signpost.Claims.Where(c => !c.Of.IsNamedFact && !IsPlain(c.Of.Index)))
            isAsked |= Concerns.AskFirst(draft, claim.Of.Index, null, isNow ? claim.Values : null);
        var alarm = new Reply.Alarm(signpost.Id, null);
        if (isNow && !draft.Replies.Contains(alarm))
            draft.Replies.Add(alarm);
        isQuiet |= !isNow && signpost.Claims.IsEmpty;
        return isNow || isAsked;
    }

    bool RaiseOne(SaidFact fact)
    {
        var values = SetOf(fact);
        if (fact.Standing != Standing.Affirmed || (_edition.Dialog.Facts[fact.Fact].Clear is { } clear && values.Only == clear))
            return Concerns.AskFirst(draft, fact.Fact, EarOf(fact), null);
        var hasText = draft.Replies.OfType<Reply.Alarm>().Any(a => a.Signpost is { } id
            && _signposts.First(s => s.Id == id).Claims.Any(c => !c.Of.IsNamedFact && c.Of.Index == fact.Fact));
        return Concerns.Raise(draft, fact.Fact, EarOf(fact), values, isShown: !hasText);
    }

    IEnumerable<Heard> Understood()
    {
        foreach (var fact in said.Facts)
        {
            if (_edition.MustBeAsked[fact.Fact] || IsPlain(fact.Fact) || ValueOf(fact) is not { } value || ReadingBack.Read(draft, fact.Fact, value) is null)
                continue;
            if (said.Facts.Any(o => o.Fact == fact.Fact && (o.Ear == fact.Ear || o.Ear is null || fact.Ear is null) && ValueOf(o) is { } other && other != value))
                continue;
            var words = text.Substring(fact.Span.Start, fact.Span.Length);
            if (!_edition.IsOfEar(fact.Fact))
            {
                yield return new Heard(fact.Fact, null, value, words, IsConfirmed: false);
                continue;
            }

            foreach (var ear in EarsOf(fact))
                yield return new Heard(fact.Fact, ear, value, words, IsConfirmed: false);
        }
    }

    /// <summary>As a chosen answer; a denied yes is a no. Null: nothing that the person says of themselves now.</summary>
    string? ValueOf(SaidFact fact) => fact.Standing switch
    {
        Standing.Affirmed => fact.Written,
        Standing.Denied when _edition.Dialog.Facts[fact.Fact].IsYesNo && fact.Written == "yes" => "no",
        _ => null,
    };

    bool IsPlain(int fact) => plain is not null && plain.Choices.Any(c => c.Fact == fact);

    ValueSet SetOf(SaidFact fact) => AnswerReader.SetOf(_edition.Dialog.Facts[fact.Fact], fact.Written);

    /// <summary>Null: both, or it was not said.</summary>
    static Ear? EarOf(SaidFact fact) => EarsOf(fact) is [{ } only] ? only : null;

    static ImmutableArray<Ear?> EarsOf(SaidFact fact) => fact.Ear switch
    {
        "left" => [Ear.Left],
        "right" => [Ear.Right],
        "both" => [Ear.Left, Ear.Right],
        _ => [null],
    };
}
