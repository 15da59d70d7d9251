using System.CommandLine;
using EarHelp.Cli.Commands;
using EarHelp.Cli.Teaching;

namespace EarHelp.Cli;

/// <summary>The whole command.</summary>
public static class EarHelpCommand
{
    const string Lesson = """
        Try:
          earhelp serve                     serve the pages; the address is printed
          earhelp demo --data FOLDER        fill an empty folder with an invented week, to look around
          earhelp check                     every fault in dialogs/ and content/, with its line
          earhelp compare OLD NEW           for whom the result changes between two editions
          earhelp sign EDITION --help       sign what was compared; two people take "demonstration" off
          earhelp publish EDITION --help    make a signed edition live in the running service
          earhelp withdraw --help           take one outcome, or all triage, off the running service
          earhelp affected EDITION RULE     who was told something by a rule
          earhelp unanswered                what was written and not understood, where it may be read
          earhelp requests                  who asks for a visit, the nearest limit first
          earhelp visit --help              record what was done and found, and get the patient's link
          earhelp audit                     who read and changed which record, and whether that is whole
          earhelp backup --help             write everything that is kept to a file, and try such a file out
          earhelp restore --help            bring a backup back, without what was erased after it
          earhelp move --help               carry everything to a PostgreSQL database, or back
          earhelp staff --help              a way back in for staff who have lost everything
          earhelp system --help             let one of the clinic's own systems read, by a token
          earhelp talk                      hold a conversation here in the terminal
          earhelp assess --help             put patients in as JSON lines, read assessments
          earhelp understand --help         put messages in as JSON lines, read what they say

        dialogs/ and content/ are looked for in --root, else in the nearest folder upwards that
        holds both, else beside the program.
        Exit codes: 0 fine, 1 faults found, 2 called in a wrong way.
        """;

    public static async Task<int> RunAsync(string[] args, Terminal terminal, TimeProvider clock, CancellationToken cancellation)
    {
        ArgumentNullException.ThrowIfNull(terminal);
        var root = new RootCommand("Structured triage for an ear clinic: the same engine as the pages, for scripts and for people at a terminal.")
        {
            ServeCommand.Make(terminal),
            CheckCommand.Make(terminal, clock),
            CompareCommand.Make(terminal),
            SignCommand.Make(terminal, clock),
            PublishCommand.Make(terminal, clock),
            WithdrawCommand.Make(terminal, clock),
            AffectedCommand.Make(terminal, clock),
            DemoCommand.Make(terminal, clock),
            RequestsCommand.Make(terminal, clock),
            UnansweredCommand.Make(terminal, clock),
            VisitCommand.Make(terminal),
            RecordsCommand.Make(terminal, clock),
            TalkCommand.Make(terminal, clock),
            ReplayCommand.Make(terminal, clock),
            EraseCommand.Make(terminal, clock),
            AuditCommand.Make(terminal, clock),
            SystemCommand.Make(terminal, clock),
            StaffCommand.Make(terminal, clock),
            BackupCommand.Make(terminal, clock),
            RestoreCommand.Make(terminal, clock),
            MoveCommand.Make(terminal),
            MapCommand.Make(terminal),
            ExplainCommand.Make(terminal),
            ExportCommand.Make(terminal),
            FactsCommand.Make(terminal),
            AssessCommand.Make(terminal, clock),
            UnderstandCommand.Make(terminal, clock),
            DecideCommand.Make(terminal),
            HealthCommand.Make(terminal),
        };
        TeachingHelp.AddTo(root, Lesson);
        var parsed = root.Parse(args);
        try
        {
            var result = await parsed
                .InvokeAsync(new InvocationConfiguration { Output = terminal.Out, Error = terminal.Error, EnableDefaultExceptionHandler = false, ProcessTerminationTimeout = null }, cancellation)
                .ConfigureAwait(false);
            return parsed.Errors.Count > 0 && parsed.Action is System.CommandLine.Invocation.ParseErrorAction ? ExitCode.WrongUse : result;
        }
        catch (WrongUseException wrong)
        {
            await terminal.Error.WriteLineAsync($"earhelp: {wrong.Message}").ConfigureAwait(false);
            return ExitCode.WrongUse;
        }
    }
}
