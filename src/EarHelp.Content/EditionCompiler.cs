using System.Collections.Frozen;
using System.Collections.Immutable;
using EarHelp.Content.Dialogs;
using EarHelp.Content.Problems;
using EarHelp.Content.Reading;
using EarHelp.Content.Sources;
using EarHelp.Content.Words;
using EarHelp.Triage.Assessments;
using EarHelp.Triage.Diagrams;
using EarHelp.Triage.Editions;

namespace EarHelp.Content;

/// <summary>Makes an edition of what clinicians wrote, or says everything that is wrong with it.</summary>
public static class EditionCompiler
{
    public static Compilation Compile(ImmutableArray<SourceFile> sources, CompileOptions options)
    {
        ArgumentNullException.ThrowIfNull(options);
        var problems = new ProblemList();
        ImmutableArray<Page> pages = [.. sources.Where(s => SourceFolder.IsCompiled(s.Path)).Select(s => PageReader.Read(s, problems))];
        var (dialog, draft) = DialogCompiler.Compile(pages, problems);
        var clinics = new ClinicReader(pages, problems);
        var clinic = clinics.Read(options.Today);
        var numbers = clinics.ReadNumbers();
        var wordings = ReadWordings(pages, dialog, draft, options);
        var assessor = problems.IsEmpty ? Build(dialog, problems) : null;
        if (assessor is null)
            return new Compilation(null, null, problems.InReadingOrder());
        var edition = new Edition(EditionHash.Of(sources), dialog, [.. draft.Sources.Values], clinic, numbers, wordings, false);
        return new Compilation(edition, assessor, []);
    }

    static FrozenDictionary<string, Wording> ReadWordings(ImmutableArray<Page> pages, Dialog dialog, DialogDraft draft, CompileOptions options)
    {
        var languages = pages
            .Where(p => !p.IsDialogs && p.Path.Count(c => c == '/') >= 2)
            .GroupBy(p => p.Path.Split('/')[1], StringComparer.Ordinal)
            .ToArray();
        if (languages.Length == 0)
            draft.Problems.Add(Codes.MissingLanguage, new("content", 1, 1), "No language has any words.", "Make a folder such as content/en/ with the words.");
        return languages
            .Select(l => new WordsReader(l.Key, [.. l], dialog, draft).Read(options))
            .ToFrozenDictionary(w => w.Language, StringComparer.Ordinal);
    }

    static Assessor? Build(Dialog dialog, ProblemList problems)
    {
        try
        {
            return Assessor.Build(dialog);
        }
        catch (DiagramLimitException limit)
        {
            problems.Add(Codes.TooLarge, dialog.Rules[0].Spot, limit.Message, "Ask the people who run the program if no table can be made smaller.");
            return null;
        }
    }
}
