using System.CommandLine;
using EarHelp.Cli.Assessing;
using EarHelp.Cli.Teaching;

namespace EarHelp.Cli.Commands;

/// <summary><c>earhelp assess</c>: patients in, assessments out, one JSON object a line.</summary>
public static class AssessCommand
{
    const string Lesson = """
        In, one object a line:
          {"id": 1, "at": "2026-11-20T09:30", "facts": {"age": 52, "ears affected": "left", "hearing": "reduced"}}
        at is an instant ("2026-11-20T09:30:00Z") or a local time at the clinic; without it: now.
        A fact is
          a value               "reduced", 52, true (of a yes/no fact), "2026-11-17" (of a date)
          a list                ["usual", "reduced"]: any of these may be true
          a range               {"from": 3, "to": 9}, both ends included, of numbers and dates
          "unsure"              any of its values may be true
          one for each ear      {"left": "reduced", "right": "usual"}; without: the one ear spoken of
        A date's own number may be given instead of the date. "earhelp facts" lists all facts.

        Out, one object a line, in the same order of members:
          id, level (null until settled), at_least and at_most (the least and the most urgent level still possible),
          rank (0 the most urgent), seen_within, seen_by, destinations, may_treat ("yes", "not until ..." or null),
          advice ({id, kind, ear}), warnings, explanations, rules ({id, ear}; ear is null for what is about the person),
          settled, open (the facts that can still change the result: {id, ear})

        A line with an unknown fact or value, or a patient who cannot be, is an error on stderr that names the line;
        the other lines are still answered, and the exit code is 1.

        Try:
          echo '{"facts":{"age":52,"ears affected":"left"}}' | earhelp assess
          earhelp assess --closed < patients.jsonl > assessments.jsonl
        """;

    public static Command Make(Terminal terminal, TimeProvider clock)
    {
        var root = SharedOptions.Root();
        var closed = new Option<bool>("--closed")
        {
            Description = "Facts not given count as asked and clear, where they have a clear value; for what forbids advice too.",
        };
        var command = new TaughtCommand("assess", "Assess patients: JSON lines on stdin, JSON lines on stdout.", Lesson) { root, closed };
        command.SetAction(async (parsed, cancellation) =>
        {
            if (OpenedEdition.Open(parsed.GetValue(root), terminal) is not { } opened)
                return ExitCode.FaultsFound;
            var edition = opened.Edition;
            var reader = new PatientLineReader(edition.Dialog, edition.Clinic.Zone, clock);
            var assessor = new LineAssessor(opened.Assessor, edition.Clinic, parsed.GetValue(closed));
            return await RunAsync(reader, assessor, new AssessedLineJson(edition.Dialog), terminal, cancellation).ConfigureAwait(false);
        });
        return command;
    }

    static async Task<int> RunAsync(
        PatientLineReader reader, LineAssessor assessor, AssessedLineJson json, Terminal terminal, CancellationToken cancellation)
    {
        var result = ExitCode.Fine;
        for (var number = 1; await terminal.In.ReadLineAsync(cancellation).ConfigureAwait(false) is { } written; number++)
        {
            if (string.IsNullOrWhiteSpace(written))
                continue;
            var read = reader.Read(written);
            var (line, faults) = read.Patient is { } patient ? assessor.Assess(patient) : (null, read.Faults);
            if (line is not null)
                await terminal.Out.WriteLineAsync(json.Write(line)).ConfigureAwait(false);
            foreach (var fault in faults)
            {
                result = ExitCode.FaultsFound;
                await terminal.Error.WriteLineAsync($"line {number}: {fault}").ConfigureAwait(false);
            }
        }

        return result;
    }
}
