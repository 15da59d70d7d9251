using System.Collections.Frozen;
using System.Collections.Immutable;
using EarHelp.Content.Answers;
using EarHelp.Content.Dialogs;
using EarHelp.Content.Problems;
using EarHelp.Content.Reading;
using EarHelp.Content.ReadingLevels;
using EarHelp.Triage.Editions;
using EarHelp.Triage.Texts;

namespace EarHelp.Content.Words;

/// <summary>Reads every word of one language, and holds it against the dialog.</summary>
sealed class WordingCompiler(CompiledDialog compiled, WordPages pages, CompileOptions options, ProblemList problems)
{
    readonly Dialog _dialog = compiled.Dialog;

    public Wording Compile(SourceSpot folder)
    {
        var adviceWords = AdviceWords.Read(pages.Of(WordPages.AdviceWords), problems);
        var glossary = GlossaryReader.Read(pages.Of(WordPages.Glossary), problems);
        var interfaceTexts = new InterfaceReader(pages, problems).Read(options.NeededTexts, folder);
        var groups = new AnswerGroups(pages, problems);
        ReportListsOfLanguage(folder);
        var answers = new AnswerReader(compiled, pages, adviceWords, new TermCheck(glossary), groups, problems).Read();
        var signposts = ReadSignposts();
        var wording = new Wording(
            pages.Language,
            ReadQuestions(),
            ReadProse(WordPages.Advice, "advice item", [.. _dialog.Advice.Select(a => (a.Id, a.Spot))]),
            ReadProse(WordPages.Warnings, "warning", WarningNames(), adviceWords),
            ReadProse(WordPages.Explanations, "explanation", [.. _dialog.Explanations.Select(e => (e.Id, e.Spot))], adviceWords),
            ReadOutcomes(adviceWords),
            ReadProse(WordPages.Destinations, "destination", [.. _dialog.Destinations.Select(d => (d.Id, d.Spot))]),
            new ReasonReader(compiled, pages, adviceWords, problems).Read(),
            ReadProse(WordPages.Holds, "hold", [.. _dialog.TreatRules.Where(r => r.Hold is not null).DistinctBy(r => r.Hold).Select(r => (r.Hold!, r.Spot))]),
            ReadPages(folder),
            interfaceTexts,
            signposts,
            answers,
            glossary)
        {
            AnswerGroups = groups.InOrder,
            Findings = new FindingWordsReader(pages, problems).Read(_dialog.Findings),
            Speech = new SpeechReader(_dialog, pages, [.. answers.Keys], [.. signposts.Select(s => s.Id)], problems).Read(),
        };
        groups.ReportEmpty();
        ReadingCheck.Report(wording, ReadingWaiver.Read(pages.TablesOf(WordPages.ReadingWaivers), problems), problems);
        return wording;
    }

    List<(string, SourceSpot)> WarningNames() => [.. _dialog.Rules.SelectMany(r => r.Warn.Select(w => (Name: w, r.Spot))).DistinctBy(w => w.Name)];

    FrozenDictionary<string, QuestionWords> ReadQuestions()
    {
        var keys = new WordKeys<QuestionWords>("screen", pages.Language, problems);
        var reader = new QuestionReader(_dialog, problems);
        foreach (var section in pages.SectionsOf(WordPages.Questions, problems))
        {
            if (_dialog.Screens.FirstOrDefault(s => s.Id == section.Name) is { } screen)
                keys.Add(section.Name, section.Spot, () => Held(reader.Read(section, screen), section));
            else
                problems.AddUnknown(Codes.WordsForNothing, section.Spot, "screen", section.Name, _dialog.Screens.Select(s => s.Id));
        }

        keys.Hold([.. _dialog.Screens.Select(s => (s.Id, s.Spot))]);
        return keys.ToFrozen();
    }

    QuestionWords Held(QuestionWords words, Section section)
    {
        TwinCheck.Report([words.Ask, words.Why, words.Note, words.Again, .. words.Entries.Select(e => e.Label), .. words.Entries.Select(e => e.Again)], section.Spot, problems);
        return words;
    }

    bool HasLimit(string level) => _dialog.Levels.FirstOrDefault(l => l.Id == level) is not { Within: null };

    FrozenDictionary<string, OutcomeWords> ReadOutcomes(AdviceWords adviceWords)
    {
        var keys = new WordKeys<OutcomeWords>("level", pages.Language, problems);
        foreach (var section in pages.SectionsOf(WordPages.Outcomes, problems))
        {
            keys.Add(section.Name, section.Spot, () =>
            {
                var words = OutcomeReader.Read(section, HasLimit(section.Name), problems);
                Prose[] all = [words.Headline, words.Meaning, words.MoreUrgent, words.IfNobodyAnswered, words.WhoDecides];
                TwinCheck.Report(all, section.Spot, problems);
                foreach (var prose in all)
                    adviceWords.Report(WordPages.Outcomes, prose, new WordSpots(section.Page.Source, prose.Spot).Find, problems);
                return words;
            });
        }

        keys.Hold([.. _dialog.Levels.Select(l => (l.Id, l.Spot))]);
        return keys.ToFrozen();
    }

    FrozenDictionary<string, Prose> ReadProse(string kind, string what, IReadOnlyCollection<(string, SourceSpot)> needed, AdviceWords? adviceWords = null)
    {
        var keys = new WordKeys<Prose>(what, pages.Language, problems);
        foreach (var section in pages.SectionsOf(kind, problems))
        {
            keys.Add(section.Name, section.Spot, () =>
            {
                var prose = ReadSection(section);
                adviceWords?.Report(kind, prose, new WordSpots(section.Page.Source, section.Spot).Find, problems);
                return prose;
            });
        }

        keys.Hold(needed);
        return keys.ToFrozen();
    }

    FrozenDictionary<string, Prose> ReadPages(SourceSpot folder)
    {
        var keys = new WordKeys<Prose>("page", pages.Language, problems);
        foreach (var section in pages.SectionsOf(WordPages.Pages, problems))
            keys.Add(section.Name, section.Spot, () => ReadSection(section));
        foreach (var page in options.NeededPages.Where(p => !keys.Has(p)))
            problems.Add(Codes.MissingPage, pages.Of(WordPages.Pages).FirstOrDefault()?.Source.SpotAt(0) ?? folder, $"The program needs the page \"{page}\".", $"Add a section \"## {page}\" to the pages.");
        return keys.ToFrozen();
    }

    Prose ReadSection(Section section)
    {
        var prose = new ProseReader(section.Page.Source, BlankNames.InAnyText, problems).Read(section.Parts, section.Spot);
        foreach (var table in section.Tables)
            problems.Add(Codes.UnsupportedMarkdown, table.Spot, "A table stands in a text.", "Write paragraphs and lists.");
        if (prose.IsEmpty)
            problems.Add(Codes.MissingPart, section.Spot, $"The section \"{section.Name}\" is empty.", "Write a paragraph below its heading.");
        TwinCheck.Report([prose], section.Spot, problems);
        return prose;
    }

    // Nothing names these one by one, so a file that is gone would not be missed.
    void ReportListsOfLanguage(SourceSpot folder)
    {
        var spot = pages.First?.Source.SpotAt(0) ?? folder;
        if (!pages.Of(WordPages.AdviceWords).Any())
            problems.Add(Codes.MissingWords, spot, $"There are no advice words in \"{pages.Language}\", so nobody would notice a dose in a text that only explains.", "Bring back the file with the setting \"words: advice words\", or write one as content/README.md says.");
        if (!pages.Of(WordPages.Signposts).Any())
            problems.Add(Codes.MissingWords, spot, $"There are no signposts in \"{pages.Language}\", so an emergency that somebody writes of would show nothing at once.", "Bring back the file with the setting \"words: signposts\", or write one as content/README.md says.");
        if (!pages.Of(WordPages.Glossary).Any())
            problems.Add(Codes.MissingWords, spot, $"There is no glossary in \"{pages.Language}\", so a medical word could stand without its plain words.", "Bring back the file with the setting \"words: glossary\", or write one as content/README.md says.");
    }

    ImmutableArray<Signpost> ReadSignposts()
    {
        var signposts = new Dictionary<string, Signpost>(StringComparer.Ordinal);
        foreach (var section in pages.SectionsOf(WordPages.Signposts, problems))
        {
            if (!signposts.TryAdd(section.Name, ReadSignpost(section)))
                problems.Add(Codes.DoubledName, section.Spot, $"The signpost \"{section.Name}\" stands twice; first at {signposts[section.Name].Spot}.", "Keep one of them.");
        }

        if (pages.Of(WordPages.Signposts).FirstOrDefault() is { } page)
            new SignpostNeeds(_dialog, problems).Report(pages.Language, [.. signposts.Values], page.Source.SpotAt(0));
        return [.. signposts.Values];
    }

    Signpost ReadSignpost(Section section)
    {
        var signpost = SignpostReader.Read(section, compiled.Conditions, problems);
        TwinCheck.Report([signpost.Text], section.Spot, problems);
        return signpost;
    }
}
