using System.Collections.Immutable;
using EarHelp.Conversation.Replies;
using EarHelp.Triage.Answers;
using EarHelp.Triage.Asking;
using EarHelp.Triage.Editions;
using EarHelp.Triage.Texts;

namespace EarHelp.Conversation.Telling;

/// <summary>Says why an outcome is what it is, and what was answered.</summary>
sealed class ReasonLetter(Edition edition, Wording wording, AnswerWords answers, ClinicWords clinic)
{
    public Prose Why(OutcomeTold told)
    {
        var deciding = ProseOf.List(told.Reasons.Where(r => r.Decides).Select(Reason).Where(r => !r.IsEmpty).DistinctBy(PlainText.OfLine));
        var others = ProseOf.List(told.Reasons.Where(r => !r.Decides && !IsSaidBy(r, told.Reasons)).Select(Reason).Where(r => !r.IsEmpty).DistinctBy(PlainText.OfLine));
        return ProseOf.Together(
            deciding.IsEmpty ? Prose.Empty : Line("why this answer lead"),
            deciding,
            others.IsEmpty ? Prose.Empty : Line("reasons less"),
            others,
            told.Answers.Any(a => a.IsRecorded) ? Line("counts the visit") : Prose.Empty,
            told.Answers.Any(a => a.Value is null) ? Line("counted as worse") : Prose.Empty);
    }

    /// <summary>A row that never decides alone gives no reason of its own beside the row that says the same.</summary>
    bool IsSaidBy(ReasonTold reason, ImmutableArray<ReasonTold> all) =>
        edition.Dialog.Rules.FirstOrDefault(r => r.Id == reason.Rule) is { } rule
        && rule.AlsoSaidBy.Any(said => all.Any(o => o.Rule == said || o.Rule.Split('.')[0] == said));

    public Prose ForTheClinician(OutcomeTold told)
    {
        var entries = told.Answers.Where(a => !IsPlainNo(a)).Select(Answered);
        var text = ProseOf.Together(Line("tell the clinician lead"), ProseOf.List(entries));
        return told.Answers.Where(IsPlainNo).GroupBy(a => a.Ear).Aggregate(text, (all, ear) => ProseOf.Together(all, PlainNos(ear.Key, ear)));
    }

    /// <summary>By question, as they were asked together.</summary>
    Prose PlainNos(Ear? ear, IEnumerable<AnswerTold> clear)
    {
        var facts = clear.Select(a => edition.Dialog.FindFact(a.Fact)!.Index);
        var entries = facts.GroupBy(f => edition.Dialog.Screens.First(s => s.Facts.Contains(f))).Select(NoOn);
        return ProseOf.Together(ProseOf.Line(clinic.Fill(answers.Word(ear is null ? "tell no" : "tell no ear"), ear, _ => null)), ProseOf.List(entries));
    }

    ImmutableArray<Inline> NoOn(IGrouping<Screen, int> facts) =>
        facts.Key.IsChecklist
            ? [ProseOf.Strong(wording.Questions[facts.Key.Id].InBrief), ProseOf.Plain(": " + string.Join("; ", facts.Select(f => answers.Brief(f, null))))]
            : [ProseOf.Strong(answers.Brief(facts.First(), null))];

    /// <summary>Asked, and the plain answer was that nothing is there: told together, so that what matters is not buried.</summary>
    bool IsPlainNo(AnswerTold answer) =>
        answer.Earlier is null
        && edition.Dialog.FindFact(answer.Fact) is { IsYesNo: true, Clear: { } clear } fact
        && string.Equals(answer.Value, fact.Values.NameOf(clear), StringComparison.Ordinal);

    ImmutableArray<Inline> Answered(AnswerTold answer)
    {
        if (edition.Dialog.FindFact(answer.Fact) is not { } fact)
            return [];
        var now = answers.Value(fact.Index, answer.Value);
        var entry = ImmutableArray.Create(ProseOf.Strong(answers.Brief(fact.Index, answer.Ear)), ProseOf.Plain(": " + now));
        if (answer.IsRecorded)
            entry = entry.Add(ProseOf.Plain(" (" + answers.Word("recorded at the visit") + ")"));
        if (answer.Earlier is null)
            return entry;
        var before = answers.Value(fact.Index, answer.Earlier == AnswerTold.Unsure ? null : answer.Earlier);
        return entry.Add(ProseOf.Plain(". " + clinic.Fill(
            answers.Word("tell changed"), answer.Ear, name => name == "before" ? before : name == "after" ? now : null)));
    }

    ImmutableArray<Inline> Reason(ReasonTold reason)
    {
        if (!wording.Reasons.TryGetValue(reason.Rule, out var text)
            && !wording.Reasons.TryGetValue(reason.Rule.Split('.')[0], out text))
            return [];
        return ProseOf.Inlines(clinic.Fill(text, reason.Ear, name => OfBlanks(reason, name)));
    }

    string? OfBlanks(ReasonTold reason, string name)
    {
        var fact = edition.Dialog.FindFact(name);
        foreach (var blank in reason.Blanks)
        {
            if (fact is not null && string.Equals(blank.Name, fact.Id, StringComparison.Ordinal))
                return answers.Value(fact.Index, blank.Value == AnswerTold.Unsure ? null : blank.Value);
        }

        return OfNamedFact(reason, name);
    }

    /// <summary>A named fact is said by the answers that made it true.</summary>
    string? OfNamedFact(ReasonTold reason, string name)
    {
        var named = edition.Dialog.NamedFacts.FirstOrDefault(n => n.Id == name);
        if (named is null)
            return null;
        var facts = named.Rows.SelectMany(r => r.Conditions).Where(c => !c.Of.IsNamedFact).Select(c => c.Of.Index).ToHashSet();
        var briefs = reason.Blanks
            .Select(b => edition.Dialog.FindFact(b.Name))
            .Where(f => f is not null && facts.Contains(f.Index))
            .Select(f => answers.Brief(f!.Index, null));
        return string.Join(", ", briefs.Distinct());
    }

    Prose Line(string key) => ProseOf.Line(clinic.Fill(answers.Word(key), null, _ => null));
}
