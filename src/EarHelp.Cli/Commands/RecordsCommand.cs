using System.CommandLine;
using System.Globalization;
using System.Text;
using EarHelp.Cli.Keeping;
using EarHelp.Cli.Teaching;
using EarHelp.Clinic.Auditing;
using EarHelp.Conversation.Taking;
using EarHelp.Exchange.Fhir;
using NodaTime;
using NodaTime.Text;

namespace EarHelp.Cli.Commands;

/// <summary><c>earhelp records</c>: conversations for the clinic's record system.</summary>
public static class RecordsCommand
{
    const string Lesson = """
        Writes a Bundle of HL7 FHIR R4 as JSON: what was answered (QuestionnaireResponse), what was told (Communication) and by which edition
        (Provenance). Where the person asked for a visit, also Patient, ServiceRequest, CarePlan and, if a time was taken, Appointment; after a
        visit that came of it, the CarePlan of the days after it. Where nobody asked, nothing names a person.
        --questions writes the Questionnaire that the answers belong to; no store is read then.
        The edition needs "record address" in content/clinic.md and a priority for each level in dialogs/levels.md.
        This prints personal details. It stands in the audit trail. If a service has the data folder, it is asked over the socket there.
        Exit code 1 if there is no such conversation, or nothing was told in it yet; 2 on wrong use.

        Try:
          earhelp records --questions > questions.json
          earhelp records --conversation 6f1c0e... --data FOLDER
          earhelp records --day 2026-11-20 | jq '.entry | length'
        """;

    public static Command Make(Terminal terminal, TimeProvider clock)
    {
        var questions = new Option<bool>("--questions") { Description = "Write the questions, and no conversation." };
        var one = new Option<string>("--conversation") { Description = "The conversation's identifier." };
        var ofDay = new Option<string>("--day") { Description = "All conversations whose last outcome was told, or whose visit was, on this day at the clinic: 2026-11-20." };
        var (root, data) = (SharedOptions.Root(), SharedOptions.Data());
        var command = new TaughtCommand("records", "Write conversations for the clinic's record system (HL7 FHIR R4).", Lesson) { questions, one, ofDay, root, data };
        command.SetAction(async (parsed, cancellation) =>
        {
            if (parsed.GetValue(questions))
                return await WriteQuestionsAsync(parsed.GetValue(root), terminal).ConfigureAwait(false);
            var asked = Asked(parsed.GetValue(one), parsed.GetValue(ofDay));
            var folder = KeptFolder.Find(parsed.GetValue(data), parsed.GetValue(root), terminal);
            using var service = RunningService.Find(folder);
            var json = service is null
                ? await FromStoreAsync(asked, folder, parsed.GetValue(root), terminal, clock, cancellation).ConfigureAwait(false)
                : await FromServiceAsync(service, asked, cancellation).ConfigureAwait(false);
            if (json is null)
            {
                await terminal.Error.WriteLineAsync($"earhelp: there is no conversation \"{asked.Conversation}\" in which something was told.").ConfigureAwait(false);
                return ExitCode.FaultsFound;
            }

            await terminal.Out.WriteLineAsync(json).ConfigureAwait(false);
            return ExitCode.Fine;
        });
        return command;
    }

    static async Task<int> WriteQuestionsAsync(string? root, Terminal terminal)
    {
        if (OpenedEdition.Open(root, terminal) is not { } opened)
            return ExitCode.FaultsFound;
        var words = opened.Served.WriterOf(opened.Served.DefaultLanguage, isSelf: true);
        var questions = await WrittenAsync(() => Task.FromResult<string?>(RecordExport.Questions(opened.Edition, words, opened.Served.IsSigned))).ConfigureAwait(false);
        await terminal.Out.WriteLineAsync(questions).ConfigureAwait(false);
        return ExitCode.Fine;
    }

    /// <exception cref="WrongUseException">Neither or both are named, or the day is none.</exception>
    static (string? Conversation, LocalDate? Day) Asked(string? conversation, string? day)
    {
        if (conversation is null == day is null)
            throw new WrongUseException("name either --conversation ID or --day 2026-11-20, or --questions.");
        if (day is null)
            return (conversation, null);
        var parsed = LocalDatePattern.Iso.Parse(day);
        return parsed.Success ? (null, parsed.Value) : throw new WrongUseException($"\"{day}\" is not a day. Write year, month and day: 2026-11-20.");
    }

    static async Task<string?> FromServiceAsync(RunningService service, (string? Conversation, LocalDate? Day) asked, CancellationToken cancellation)
    {
        var path = asked.Day is { } day
            ? "control/records/day/" + day.ToString("uuuu-MM-dd", CultureInfo.InvariantCulture)
            : "control/records/of/" + Uri.EscapeDataString(asked.Conversation!);
        var (status, bytes) = await service.SendAsync(HttpMethod.Get, path, null, cancellation).ConfigureAwait(false);
        var text = Encoding.UTF8.GetString(bytes);
        return status switch
        {
            200 => text,
            404 => null,
            _ => throw new WrongUseException(text),
        };
    }

    static async Task<string?> FromStoreAsync(
        (string? Conversation, LocalDate? Day) asked, string folder, string? root, Terminal terminal, TimeProvider clock, CancellationToken cancellation)
    {
        if (OpenedEdition.Open(root, terminal) is not { } opened)
            throw new WrongUseException("the edition of this folder has faults: mend them first (earhelp check).");
        var store = OpenedStore.Open(folder, terminal);
        await using (store.ConfigureAwait(false))
        {
            await store.AddToAuditAsync(clock, AuditDeed.WroteRecords, asked.Conversation, cancellation).ConfigureAwait(false);
            var taking = new TurnTaking(store.Turns, new EditionShelf(opened.Served, store.Editions), clock);
            var export = new RecordExport(taking, store.Requests, store.Visits, store.Conversations, clock);
            return await WrittenAsync(async () => asked.Day is { } day
                ? await export.OfDayAsync(day, cancellation).ConfigureAwait(false)
                : await export.OfAsync(asked.Conversation!, cancellation).ConfigureAwait(false)).ConfigureAwait(false);
        }
    }

    static async Task<string?> WrittenAsync(Func<Task<string?>> write)
    {
        try
        {
            return await write().ConfigureAwait(false);
        }
        catch (RecordsUnwritableException lacking)
        {
            throw new WrongUseException(lacking.Message, lacking);
        }
    }
}
