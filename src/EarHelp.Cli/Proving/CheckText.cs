using EarHelp.Cli.Describing;

namespace EarHelp.Cli.Proving;

/// <summary>Tells a check at the terminal: faults on the one side, figures and notices on the other.</summary>
static class CheckText
{
    public static void Write(EditionCheck check, TimeSpan took, Terminal terminal)
    {
        foreach (var problem in check.Compiled.Problems.Concat(check.Examples?.Problems ?? []))
            terminal.Error.WriteLine(problem);
        foreach (var due in check.Due)
            terminal.Error.WriteLine(FormattableString.Invariant($"{due.Spot}: warning: The review was due by {due.By:yyyy-MM-dd}. Look the page over, and write the new days. Owner: {due.Owner}."));
        if (check is not { Report: { } report, Examples: { } examples, Compiled: { Edition: { } edition, Assessor: { } assessor } })
        {
            terminal.Out.WriteLine(FormattableString.Invariant($"{check.Files} files read, {check.Compiled.Problems.Length + (check.Examples?.Problems.Length ?? 0)} faults found. Nothing is served until they are mended."));
            return;
        }

        foreach (var finding in report.Errors)
            terminal.Error.WriteLine(finding);
        terminal.Out.WriteLine("The hardest to read:");
        foreach (var text in HardestTexts.Of(edition))
            terminal.Out.WriteLine(text);
        terminal.Out.WriteLine(examples.Problems.IsEmpty
            ? CheckSummary.Of(check.Files, edition, assessor, examples.Count)
            : FormattableString.Invariant($"{check.Files} files read, no fault in them; {examples.Count} examples, {examples.Problems.Length} faults found."));
        foreach (var notice in report.Findings.Where(f => f.IsNotice))
            terminal.Out.WriteLine(notice);
        if (!report.MayLower.IsEmpty)
            terminal.Out.WriteLine($"An answer may lower the level of these facts, for clinicians to sign: {string.Join(", ", report.MayLower)}.");
        terminal.Out.WriteLine(report.Summary(took));
    }
}
