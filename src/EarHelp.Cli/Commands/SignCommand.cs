using System.CommandLine;
using EarHelp.Cli.Keeping;
using EarHelp.Cli.Proving;
using EarHelp.Cli.Signing;
using EarHelp.Cli.Teaching;
using EarHelp.Conversation.Signing;
using EarHelp.Triage.Editions;
using EarHelp.Web.Signing;
using NodaTime.Text;

namespace EarHelp.Cli.Commands;

/// <summary><c>earhelp sign EDITION</c>: one of the two signatures that take "demonstration" off the pages.</summary>
public static class SignCommand
{
    const string Lesson = """
        EDITION is a folder that holds dialogs/ and content/ (it is kept from then on), or the identifier of a kept edition.
        It is proven and compared with the edition that the running service serves; if none runs, or nobody ever signed that one, with the
        edition that was published last, else with the one that was signed last. The first line says which. What is printed is what is
        signed. Every decrease of urgency has to be confirmed by its identifier, by the author and by the approver. Signed is what both
        have signed, two people, having seen the same comparison, until the earlier of their two dates. A changed file makes another
        edition, which nobody has signed. Every signature stays in the ledger of the data folder. A service that runs looks at all of this
        itself before it keeps a signature, and shows it at once.

        Try:
          earhelp sign . --as author   --name "A. Writer" --role audiologist --reason "yearly review" --expires 2027-06-30
          earhelp sign . --as approver --name "B. Reader" --role "ear surgeon" --reason "read and agreed" --expires 2027-06-30 --confirm D-1a2b3c
        """;

    public static Command Make(Terminal terminal, TimeProvider clock)
    {
        var edition = new Argument<string>("EDITION") { Description = "A folder, or the identifier of a kept edition." };
        var part = new Option<string>("--as") { Description = "\"author\" or \"approver\".", HelpName = "PART", Required = true };
        part.AcceptOnlyFromAmong("author", "approver");
        var (name, role, reason) = (SigningOptions.Name(), SigningOptions.Role(), SigningOptions.Reason());
        var expires = new Option<string>("--expires") { Description = "The first day (UTC) on which the signature holds no more.", HelpName = "YYYY-MM-DD", Required = true };
        var confirm = new Option<string[]>("--confirm") { Description = "A decrease of urgency that is meant; once for each.", HelpName = "ID", DefaultValueFactory = _ => [] };
        var (root, data) = (SharedOptions.Root(), SharedOptions.Data());
        var command = new TaughtCommand("sign", "Sign an edition, with the comparison that is shown.", Lesson) { edition, part, name, role, reason, expires, confirm, root, data };
        command.SetAction(async (parsed, cancellation) =>
        {
            var now = clock.GetUtcNow().ToUnixTimeMilliseconds();
            var until = DayOf(parsed.GetRequiredValue(expires), now);
            var kept = KeptEditions.Open(KeptFolder.Find(parsed.GetValue(data), parsed.GetValue(root), terminal), terminal);
            await using (kept.ConfigureAwait(false))
            {
                if (await kept.OpenAsync(parsed.GetRequiredValue(edition), cancellation).ConfigureAwait(false) is not { } opened)
                    return ExitCode.FaultsFound;
                var ledger = await kept.LedgerAsync(cancellation).ConfigureAwait(false);
                var with = ComparedWith.For(opened.Id, await kept.ServedAsync(cancellation).ConfigureAwait(false), ledger);
                Edition? other = null;
                if (with.Edition is { } id && (other = await kept.FindAsync(id, cancellation).ConfigureAwait(false)) is null)
                    return ExitCode.FaultsFound;
                var seen = SignedComparison.Of(with, other, opened);
                await terminal.Out.WriteAsync(seen.Text).ConfigureAwait(false);
                var deed = new Deed(
                    parsed.GetValue(part) == "author" ? DeedKind.SignedAsAuthor : DeedKind.SignedAsApprover, opened.Id, now,
                    parsed.GetRequiredValue(name), parsed.GetRequiredValue(role), parsed.GetRequiredValue(reason),
                    seen.SeenBy(parsed.GetValue(confirm)!.Distinct(StringComparer.Ordinal)), until);
                var fault = SignatureCheck.FaultOf(deed, ledger, seen) ?? UnprovenIn(opened, terminal) ?? await kept.AddAsync(ledger, deed, cancellation).ConfigureAwait(false);
                if (fault is not null)
                {
                    await terminal.Error.WriteLineAsync($"earhelp: not signed: {fault}").ConfigureAwait(false);
                    return ExitCode.FaultsFound;
                }

                var isSigned = (await kept.LedgerAsync(cancellation).ConfigureAwait(false)).SignedUntil(opened.Id) > now;
                await terminal.Out.WriteLineAsync($"Edition {opened.Id} is signed by the {parsed.GetValue(part)}{(isSigned ? ", and so by both." : "; the other signature is missing.")}").ConfigureAwait(false);
                return ExitCode.Fine;
            }
        });
        return command;
    }

    static long DayOf(string written, long now) =>
        LocalDatePattern.Iso.Parse(written) is { Success: true, Value: var day }
            ? day.AtMidnight().InUtc().ToInstant().ToUnixTimeMilliseconds() is var until && until > now
                ? until
                : throw new WrongUseException($"\"{written}\" for --expires is over already.")
            : throw new WrongUseException($"\"{written}\" for --expires is no day; write it as 2027-06-30.");

    /// <summary>Why an edition that is not proven is not signed; null if it is proven.</summary>
    static string? UnprovenIn(Edition edition, Terminal terminal)
    {
        CheckedFinding[] findings = [.. SignatureCheck.UnprovenIn(edition).Select(CheckedFinding.Of)];
        foreach (var finding in findings)
            terminal.Error.WriteLine($"{finding.Spots.FirstOrDefault()}: {finding.Rule}: {finding.Fault} {finding.Mend}");
        return findings.Length == 0 ? null : $"the edition is not proven safe ({findings.Length} findings); \"earhelp check\" tells them.";
    }
}
