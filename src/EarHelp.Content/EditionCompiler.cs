using System.Collections.Frozen;
using System.Collections.Immutable;
using EarHelp.Content.Checks;
using EarHelp.Content.Clinics;
using EarHelp.Content.Dialogs;
using EarHelp.Content.Problems;
using EarHelp.Content.Reading;
using EarHelp.Content.Sources;
using EarHelp.Content.Words;
using EarHelp.Triage.Assessments;
using EarHelp.Triage.Diagrams;
using EarHelp.Triage.Editions;
using EarHelp.Triage.Texts;

namespace EarHelp.Content;

/// <summary>Turns the Markdown that clinicians wrote into an edition, or into everything that is wrong with it.</summary>
public static class EditionCompiler
{
    /// <summary>Never throws on any sources.</summary>
    public static Compilation Compile(ImmutableArray<SourceFile> sources, CompileOptions options) => Compile(sources, options, PageReader.Read);

    /// <param name="read">Reads one file, on any thread; the same one may be asked for again with every compilation.</param>
    internal static Compilation Compile(ImmutableArray<SourceFile> sources, CompileOptions options, Func<SourceFile, ProblemList, Page> read)
    {
        ArgumentNullException.ThrowIfNull(options);
        var problems = new ProblemList(options.PassesOver);
        var compiled = sources.Where(s => SourceFolder.IsCompiled(s.Path)).OrderBy(s => s.Path, StringComparer.Ordinal).ToImmutableArray();
        var pages = compiled.AsParallel().AsOrdered().Select(s => read(s, problems)).ToList();
        var dialogPages = pages.Where(p => p.Path.StartsWith("dialogs/", StringComparison.Ordinal)).ToList();
        var contentPages = pages.Where(p => p.Path.StartsWith("content/", StringComparison.Ordinal)).ToList();

        var dialog = DialogCompiler.Compile(dialogPages, problems);
        new DialogChecks(dialog, problems).Run(FirstSpot(dialogPages, "dialogs/"));
        // The longest step by itself, so it goes on beside the words; in vain if one of those has a fault.
        var building = problems.IsEmpty ? Task.Run(() => Build(dialog.Dialog)) : null;
        var clinic = ClinicReader.Read(contentPages.Find(p => p.Path == ClinicReader.File), dialog.Dialog, options.Today, problems);
        var numbers = EmergencyNumbersReader.Read(contentPages.Find(p => p.Path == EmergencyNumbersReader.File), dialog, problems);
        var wordings = CompileWords(contentPages, dialog, options, problems);
        dialog.Sources.ReportUnused();

        var (assessor, limit) = building is null || !problems.IsEmpty ? default : building.GetAwaiter().GetResult();
        if (limit is not null)
            problems.Add(Codes.TooLarge, dialog.Dialog.Rules[0].Spot, limit, "Let the tables tell fewer values apart, or split a table.");
        return assessor is not null && clinic is not null
            ? new Compilation(new Edition(EditionHash.Of(compiled), dialog.Dialog, dialog.Sources.All, clinic, numbers, wordings), assessor, [])
            : new Compilation(null, null, problems.Sorted()) { WithoutTheMissing = MissingNames.AreAllOf(problems) ? dialog.Dialog : null };
    }

    static (Assessor? Assessor, string? Limit) Build(Dialog dialog)
    {
        try
        {
            return (Assessor.Build(dialog), null);
        }
        catch (DiagramLimitException limit)
        {
            return (null, limit.Message);
        }
    }

    static FrozenDictionary<string, Wording> CompileWords(List<Page> pages, CompiledDialog dialog, CompileOptions options, ProblemList problems)
    {
        var wordings = new Dictionary<string, Wording>(StringComparer.Ordinal);
        foreach (var folder in pages.GroupBy(p => p.Path.Split('/') is [_, var language, _, ..] ? language : ""))
        {
            if (folder.Key.Length == 0)
            {
                foreach (var stray in folder.Where(p => p.Path is not (ClinicReader.File or EmergencyNumbersReader.File)))
                    problems.Add(Codes.TextOutsideSection, stray.Source.SpotAt(0), "The file belongs to no language.", "Move it into a folder such as content/en/.");
            }
            else if (!WordPages.IsLanguage(folder.Key))
            {
                problems.Add(Codes.MalformedName, folder.First().Source.SpotAt(0), $"\"{folder.Key}\" is not the tag of a language.", "Name the folder en, de, pt-BR …");
            }
            else
            {
                wordings[folder.Key] = new WordingCompiler(dialog, WordPages.Sort(folder.Key, folder, problems), options, problems).Compile(new SourceSpot($"content/{folder.Key}", 1, 1));
            }
        }

        if (wordings.Count == 0)
            problems.Add(Codes.NothingToCompile, FirstSpot(pages, "content/"), "There are no words in any language.", "Add a folder content/en/ with the words.");
        return wordings.ToFrozenDictionary(StringComparer.Ordinal);
    }

    static SourceSpot FirstSpot(List<Page> pages, string folder) => new(pages.FirstOrDefault()?.Path ?? folder, 1, 1);
}
