using System.Collections.Immutable;
using EarHelp.Conversation.Replies;
using EarHelp.Triage.Answers;
using EarHelp.Triage.Editions;
using EarHelp.Triage.Texts;
using NodaTime;

namespace EarHelp.Conversation.Telling;

/// <summary>Puts an outcome into words, section by section.</summary>
sealed class OutcomeLetter(Edition edition, Wording wording, AnswerWords answers, ClinicWords clinic)
{
    const int HeadlineLevel = 3;

    readonly ReasonLetter _reasons = new(edition, wording, answers, clinic);
    readonly DropsLetter _drops = new(edition.Dialog, answers, clinic);

    public ImmutableArray<OutcomeSection> Write(OutcomeTold told, Instant now)
    {
        var sections = ImmutableArray.CreateBuilder<OutcomeSection>();
        var outcome = wording.Outcomes.GetValueOrDefault(told.Level);
        string? ValueOf(string name) => name switch
        {
            "seen by" => told.SeenBy is { } seenBy ? clinic.Times.Moment(seenBy) : null,
            "answer by" => told.AnswerBy is { } answerBy ? clinic.Times.Moment(answerBy) : null,
            "destination" => NextPlace(told),
            "moment" => clinic.Times.Moment(told.DecidedAt),
            _ => null,
        };
        Prose Fill(Prose? text) => clinic.Fill(text ?? Prose.Empty, null, ValueOf);
        Prose Line(string key) => ProseOf.Line(clinic.Fill(answers.Word(key), null, ValueOf));
        void Add(OutcomeSectionKind kind, string key, Prose text)
        {
            if (!text.IsEmpty)
                sections.Add(new OutcomeSection(kind, clinic.Fill(answers.Word(key), null, ValueOf), text));
        }

        Add(OutcomeSectionKind.HowSoon, "how soon", ProseOf.Together(Fill(outcome?.Headline), ByWhen(told, now, Line), Fill(outcome?.Meaning)));
        Add(OutcomeSectionKind.Where, "where", Where(told, Line, Fill));
        Add(OutcomeSectionKind.MayTreat, "clinic may treat", MayTreat(told, Line, Fill));
        Add(OutcomeSectionKind.ToDo, "what to do", Advice(told, AdviceTold.ToDo));
        Add(OutcomeSectionKind.LeaveAlone, "leave alone", Advice(told, AdviceTold.LeaveAlone));
        Add(OutcomeSectionKind.Protect, "protect", Advice(told, AdviceTold.Protect));
        Add(OutcomeSectionKind.GetHelp, "get help", Advice(told, AdviceTold.GetHelp));
        Add(OutcomeSectionKind.TakeNote, "take note", All(told.Warnings, wording.Warnings, Fill));
        Add(OutcomeSectionKind.MoreUrgent, "more urgent", Fill(outcome?.MoreUrgent));
        Add(OutcomeSectionKind.Why, "why this answer", _reasons.Why(told));
        Add(OutcomeSectionKind.GoodToKnow, "good to know", All(told.Explanations, wording.Explanations, t => WithHeadline(Fill(t))));
        Add(OutcomeSectionKind.ForTheClinician, "tell the clinician", _reasons.ForTheClinician(told));
        var nobodyAnswered = told.AnswerBy is null ? "if nobody answered" : "if nobody answered by";
        Add(OutcomeSectionKind.IfNobodyAnswered, nobodyAnswered, Fill(outcome?.IfNobodyAnswered));
        Add(OutcomeSectionKind.WhoDecides, "who decides", Fill(outcome?.WhoDecides));
        return sections.ToImmutable();
    }

    static Prose ByWhen(OutcomeTold told, Instant now, Func<string, Prose> line)
    {
        if (told.SeenBy is not { } seenBy)
            return line("no time limit");
        if (told.Rank > 0 && (told.IsOverdue || seenBy < now))
            return ProseOf.Together(line("overdue"), told.Destinations.IsEmpty ? Prose.Empty : line("overdue next"));
        return line(told.Rank == 0 ? "by when now" : "by when words");
    }

    Prose Where(OutcomeTold told, Func<string, Prose> line, Func<Prose?, Prose> fill)
    {
        var text = Prose.Empty;
        for (var i = 0; i < told.Destinations.Length; i++)
        {
            var place = told.Destinations[i];
            if (i < 2 && told.Destinations.Length > 1)
                text = ProseOf.Together(text, ProseOf.Heading(answers.Word(i == 0 ? "where first" : "where next")));
            text = ProseOf.Together(text, fill(wording.Destinations.GetValueOrDefault(place.Id)));
            if (IsClinic(place.Id))
                text = ProseOf.Together(text, line("clinic can"));
        }

        var namesClinic = told.Destinations.Any(d => IsClinic(d.Id));
        return told.ClinicIsTooLate && !namesClinic ? ProseOf.Together(text, line("clinic cannot")) : text;
    }

    bool IsClinic(string destination) =>
        edition.Dialog.Destinations.Any(d => d.Hours == Triage.Rules.DestinationHours.Clinic && d.Id == destination);

    Prose MayTreat(OutcomeTold told, Func<string, Prose> line, Func<Prose?, Prose> fill)
    {
        if (told.Hold is not null)
            return ProseOf.Together(line("clinic may treat not yet"), fill(wording.Holds.GetValueOrDefault(told.Hold)));
        return told.MayTreat is true ? line("clinic may treat yes") : Prose.Empty;
    }

    /// <summary>Both ears in their order; what goes for both of them is said once.</summary>
    Prose Advice(OutcomeTold told, string kind)
    {
        var namesEars = told.Advice.Select(a => a.Ear).OfType<Ear>().Distinct().Count() > 1;
        var text = Prose.Empty;
        string? saidFor = null;
        foreach (var ears in told.Advice.Where(a => a.Kind == kind && wording.Advice.ContainsKey(a.Id)).GroupBy(a => a.Id))
        {
            var item = ears.Last();
            var eachEar = ears.Count() > 1 ? answers.Word("the ear each") : null;
            var isFor = namesEars && item.Ear is not null ? clinic.Fill(answers.Word(eachEar is null ? "for ear" : "for each ear"), item.Ear, _ => null) : null;
            if (isFor is not null && isFor != saidFor)
                text = ProseOf.Together(text, ProseOf.Heading(isFor));
            saidFor = isFor;
            text = ProseOf.Together(
                text,
                WithHeadline(clinic.Fill(wording.Advice[item.Id], item.Ear, name => name == "the ear" ? eachEar : null)),
                _drops.After(item, told.Advice, told.DecidedAt.InZone(edition.Clinic.Zone).Date));
        }

        return text;
    }

    /// <summary>The first paragraph of an advice item or an explanation is its headline.</summary>
    static Prose WithHeadline(Prose item) =>
        !item.IsEmpty && item.Blocks[0] is Block.Paragraph first
            ? item with { Blocks = item.Blocks.SetItem(0, new Block.Heading(HeadlineLevel, first.Inlines)) }
            : item;

    static Prose All(
        ImmutableArray<string> ids, IReadOnlyDictionary<string, Prose> texts, Func<Prose?, Prose> fill)
    {
        var text = Prose.Empty;
        foreach (var id in ids)
            text = ProseOf.Together(text, fill(texts.GetValueOrDefault(id)));
        return text;
    }

    /// <summary>The name of the place to turn to if the first did not answer; of the first if there is one only.</summary>
    string NextPlace(OutcomeTold told)
    {
        if (told.Destinations.IsEmpty)
            return string.Empty;
        var next = told.Destinations[told.Destinations.Length > 1 && !told.IsOverdue ? 1 : 0];
        return wording.Destinations.TryGetValue(next.Id, out var words) && !words.IsEmpty
            ? PlainText.OfLine(clinic.Fill(new Prose([words.Blocks[0]], default), null, _ => null))
            : next.Id;
    }
}
