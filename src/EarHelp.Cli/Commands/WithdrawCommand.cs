using System.CommandLine;
using EarHelp.Cli.Keeping;
using EarHelp.Cli.Signing;
using EarHelp.Cli.Teaching;
using EarHelp.Conversation.Signing;
using EarHelp.Conversation.Withdrawing;

namespace EarHelp.Cli.Commands;

/// <summary><c>earhelp withdraw</c>: takes one outcome, or all triage, off a running service, and puts it back.</summary>
public static class WithdrawCommand
{
    const string Lesson = """
        OUTCOME is the name of a level ("within a day"). From the moment at which this returns nobody is told that outcome: who comes to
        it, and who has it as a plan, reads that it was taken off, and how to reach the clinic and the emergency service. With --all no
        question is asked and no outcome is told. The emergency texts, and the most urgent outcome, are always told.
        It is kept in the ledger with name, role and reason, and holds over a restart until it is lifted. If no service is running, it
        holds from its next start. One person may do it: what is urgent waits for nobody.

        Then: correct the rules, sign, publish, and lift. Publishing lifts nothing. Open conversations that began with an edition which was
        not published after the withdrawal go on with the corrected one: they are told, keep their answers, and are asked only what changed.

        Try:
          earhelp withdraw "look after it at home" --name "B. Reader" --role "ear surgeon" --reason "a complaint about drops"
          earhelp withdraw --all                   --name "B. Reader" --role "ear surgeon" --reason "wrong telephone number"
          earhelp withdraw --lift --all            --name "B. Reader" --role "ear surgeon" --reason "edition 5c0e is live"
        """;

    public static Command Make(Terminal terminal, TimeProvider clock)
    {
        var outcome = new Argument<string?>("OUTCOME") { Description = "The name of a level.", Arity = ArgumentArity.ZeroOrOne };
        var all = new Option<bool>("--all") { Description = "All triage; with --lift: all that is withdrawn." };
        var lift = new Option<bool>("--lift") { Description = "Tell it again." };
        var (name, role, reason) = (SigningOptions.Name(), SigningOptions.Role(), SigningOptions.Reason());
        var (root, data) = (SharedOptions.Root(), SharedOptions.Data());
        var command = new TaughtCommand("withdraw", "Take one outcome, or all triage, off the running service.", Lesson) { outcome, all, lift, name, role, reason, root, data };
        command.SetAction(async (parsed, cancellation) =>
        {
            var named = parsed.GetValue(outcome);
            if (parsed.GetValue(all) == named is not null)
                throw new WrongUseException("name one outcome, or --all.");
            var kept = KeptEditions.Open(KeptFolder.Find(parsed.GetValue(data), parsed.GetValue(root), terminal), terminal);
            await using (kept.ConfigureAwait(false))
            {
                var ledger = await kept.LedgerAsync(cancellation).ConfigureAwait(false);
                var served = await kept.ServedAsync(cancellation).ConfigureAwait(false) ?? ledger.Published;
                var deed = new Deed(
                    parsed.GetValue(lift) ? DeedKind.Lifted : DeedKind.Withdrawn, served ?? string.Empty, clock.GetUtcNow().ToUnixTimeMilliseconds(),
                    parsed.GetRequiredValue(name), parsed.GetRequiredValue(role), parsed.GetRequiredValue(reason), Outcome: named);
                if ((await FaultOfAsync(kept, deed, ledger, parsed.GetValue(root), terminal, cancellation).ConfigureAwait(false) ?? await kept.AddAsync(ledger, deed, cancellation).ConfigureAwait(false)) is { } fault)
                {
                    await terminal.Error.WriteLineAsync($"earhelp: nothing is changed: {fault}").ConfigureAwait(false);
                    return ExitCode.FaultsFound;
                }

                var what = named is not null ? $"The outcome \"{named}\"" : parsed.GetValue(lift) ? "All that was withdrawn" : "All triage";
                var when = kept.IsRunning ? "from now on" : "from the next start of the service on (none is running)";
                await terminal.Out.WriteLineAsync($"{what} is {(parsed.GetValue(lift) ? "told again" : "withdrawn")} {when}.").ConfigureAwait(false);
                return ExitCode.Fine;
            }
        });
        return command;
    }

    /// <summary>A running service looks itself, and knows best what it serves.</summary>
    static async Task<string?> FaultOfAsync(KeptEditions kept, Deed deed, Ledger ledger, string? root, Terminal terminal, CancellationToken cancellation)
    {
        if (kept.IsRunning)
            return null;
        var edition = deed.Outcome is null ? null
            : deed.Edition.Length > 0 ? await kept.FindAsync(deed.Edition, cancellation).ConfigureAwait(false)
            : OpenedEdition.Open(root, terminal)?.Edition;
        return WithdrawalCheck.FaultOf(deed, ledger, edition);
    }
}
