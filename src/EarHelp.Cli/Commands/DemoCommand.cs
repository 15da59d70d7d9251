using System.Collections.Immutable;
using System.CommandLine;
using EarHelp.Cli.Demonstrating;
using EarHelp.Cli.Keeping;
using EarHelp.Cli.Teaching;
using EarHelp.Content.Demonstrations;
using EarHelp.Content.Examples;
using EarHelp.Content.Sources;
using EarHelp.Conversation.Keeping;
using EarHelp.Conversation.Signing;
using EarHelp.Conversation.Turns;
using EarHelp.Storage;
using EarHelp.Web.AfterVisit;
using EarHelp.Web.Security;
using EarHelp.Web.Turns;
using NodaTime;

namespace EarHelp.Cli.Commands;

/// <summary><c>earhelp demo</c>: a store of its own with an invented week, so that every page has something to show.</summary>
public static class DemoCommand
{
    const string Lesson = """
        Fills a store that holds nothing yet, and refuses any other. The store is marked first: every page that is served from it says "invented
        data", nothing is ever signed or published in it, and the mark cannot be taken off. The week ends at this moment and comes from
        dialogs/demo/week.md; the patients are the example patients of dialogs/examples/, who hold their conversations with the real engine.
        The same seed, moment and files give the same week. The one-time codes of the invented staff are printed once; nobody has a password.
        Exit code 0; 1 if the files have faults; 2 if the store holds anything, or cannot be opened.

        Try:
          earhelp demo --data demo
          earhelp serve --data demo
          earhelp demo --store "Host=localhost;Database=earhelp_demo;Username=earhelp"
        """;

    const string Name = "earhelp demo", Role = "demonstration", Reason = "filled with an invented week";

    public static Command Make(Terminal terminal, TimeProvider clock)
    {
        var (root, data) = (SharedOptions.Root(), SharedOptions.Data());
        data.Description = "The folder to be filled; it is made if it is not there.";
        var database = new Option<string?>("--store") { Description = "A PostgreSQL database to be filled instead, as for \"serve\".", HelpName = "CONNECTION" };
        var seed = new Option<int>("--seed") { Description = "Another number gives another week.", DefaultValueFactory = _ => 1 };
        var command = new TaughtCommand("demo", "Fill an empty store with an invented week, to look around.", Lesson) { data, database, seed, root };
        command.SetAction(async (parsed, cancellation) =>
        {
            var connection = parsed.GetValue(database) ?? Environment.GetEnvironmentVariable(StoreOpening.Variable);
            if (parsed.GetValue(data) is null && string.IsNullOrWhiteSpace(connection))
                throw new WrongUseException("name the folder to be filled with --data FOLDER, or a database with --store.");
            if (OpenedEdition.Open(parsed.GetValue(root), terminal) is not { } opened || ReadWeek(parsed.GetValue(root), opened, terminal) is not var (week, runs))
                return ExitCode.FaultsFound;
            var folder = Path.GetFullPath(parsed.GetValue(data) ?? terminal.Folder, terminal.Folder);
            await using var store = Open(folder, connection);
            await RefuseUsedAsync(store, cancellation).ConfigureAwait(false);
            await FillAsync(store, opened, week, runs, parsed.GetValue(seed), clock, terminal, cancellation).ConfigureAwait(false);
            await terminal.Out.WriteLineAsync($"\nServe it:\n  earhelp serve {(string.IsNullOrWhiteSpace(connection) ? $"--data {folder}" : "--store ... (the same database)")}").ConfigureAwait(false);
            return ExitCode.Fine;
        });
        return command;
    }

    static IStore Open(string folder, string? connection)
    {
        try
        {
            return StoreOpening.Open(folder, connection, new StoreOptions());
        }
        catch (StoreFailedException failed)
        {
            throw new WrongUseException(failed.Message, failed);
        }
    }

    static (InventedWeek Week, ImmutableArray<ExampleRun> Runs)? ReadWeek(string? root, OpenedEdition opened, Terminal terminal)
    {
        var folder = RootFolder.Find(root, terminal);
        var file = Path.Combine(folder, InventedWeek.File);
        if (!File.Exists(file))
            throw new WrongUseException($"there is no {InventedWeek.File} in {folder}.");
        var (week, problems) = InventedWeekReader.Read(new SourceFile(InventedWeek.File, File.ReadAllBytes(file)), opened.Edition.Dialog, WeekNames.All);
        var examples = ExamplePatients.Check(SourceFolder.ReadExamples(folder), opened.Edition, opened.Assessor);
        foreach (var problem in problems.Concat(examples.Problems))
            terminal.Error.WriteLine(problem);
        return week is null || !examples.Problems.IsEmpty ? null : (week, examples.Runs);
    }

    /// <exception cref="WrongUseException">The store holds something.</exception>
    static async Task RefuseUsedAsync(IStore store, CancellationToken cancellation)
    {
        var isEmpty = (await store.ConversationsAsync(cancellation).ConfigureAwait(false)).IsEmpty
            && (await store.ReadAsync(cancellation).ConfigureAwait(false)).IsEmpty
            && (await store.Audit.ReadAsync(cancellation).ConfigureAwait(false)) is { Entries.IsEmpty: true, FirstDamaged: null }
            && (await store.Staff.AllAsync(cancellation).ConfigureAwait(false)).IsEmpty
            && (await store.Requests.WaitingAsync(cancellation).ConfigureAwait(false)).IsEmpty
            && (await store.Visits.AllAsync(cancellation).ConfigureAwait(false)).IsEmpty
            && (await store.Callers.AllAsync(cancellation).ConfigureAwait(false)).IsEmpty
            && (await store.Incidents.AllAsync(cancellation).ConfigureAwait(false)).IsEmpty
            && (await store.Closings.AllAsync(cancellation).ConfigureAwait(false)).IsEmpty;
        if (!isEmpty)
            throw new WrongUseException("the store holds something already, and an invented week never goes beside it. Name a new folder or an empty database.");
    }

    static async Task FillAsync(
        IStore store, OpenedEdition opened, InventedWeek week, ImmutableArray<ExampleRun> runs, int seed, TimeProvider clock, Terminal terminal, CancellationToken cancellation)
    {
        var end = Instant.FromUnixTimeMilliseconds(clock.GetUtcNow().ToUnixTimeMilliseconds());
        await store.KeepAsync(opened.Edition.Id, SourcePack.Pack(opened.Sources), cancellation).ConfigureAwait(false);
        var mark = new Deed(DeedKind.Invented, opened.Edition.Id, end.ToUnixTimeMilliseconds(), Name, Role, Reason);
        if (!await store.AppendAsync(Ledger.Empty.Next(mark), cancellation).ConfigureAwait(false))
            throw new WrongUseException("somebody else uses the store at this moment, so nothing was filled in. Name an empty one.");
        var random = new Random(seed);
        var moved = new MovedClock(end);
        var clinic = new InventedClinic(store, opened.Served, moved);
        var people = new InventedPeople(week, seed);
        var staff = await InventedStaffRoom.OpenAsync(week, people, store.Staff, clinic.Auditor, end, cancellation).ConfigureAwait(false);
        var filling = new WeekFilling(clinic, week, people, staff, new PatientChoice(opened.Served, clinic.Shelf, runs, random), random, end);
        await filling.FillAsync(cancellation).ConfigureAwait(false);
        await TellAsync(filling.Filled, staff, clinic, people, terminal, cancellation).ConfigureAwait(false);
    }

    static async Task TellAsync(FilledWeek filled, InventedStaffRoom staff, InventedClinic clinic, InventedPeople people, Terminal terminal, CancellationToken cancellation)
    {
        await terminal.Out.WriteLineAsync(
            $"The store holds an invented week: {filled.Conversations + filled.Requests.Count} conversations, {filled.Requests.Count} requests, {filled.Visits.Count} visits. Every page says so.").ConfigureAwait(false);
        if (filled.LeftOut.Count > 0)
            await terminal.Out.WriteLineAsync($"Left out, because the clinic could not have been asked, or was closed: {string.Join(", ", filled.LeftOut)}.").ConfigureAwait(false);
        await terminal.Out.WriteLineAsync("\nStaff: open /staff/join and use a one-time code (each works once, for 4 days):").ConfigureAwait(false);
        foreach (var (name, roles, code) in staff.Codes)
            await terminal.Out.WriteLineAsync($"  {name} ({string.Join(", ", roles)}): {code}").ConfigureAwait(false);
        await terminal.Out.WriteLineAsync("\nPatients: open one of these after the service's own address (each works once):").ConfigureAwait(false);
        if (filled.Booked is { } booked)
            await terminal.Out.WriteLineAsync($"  {await LinkAsync(clinic, people, booked, cancellation).ConfigureAwait(false)}  a plan with a visit that is booked").ConfigureAwait(false);
        if (filled.Visits.Find(v => v.IsUnopened).Conversation is { } visit)
            await terminal.Out.WriteLineAsync($"  {await LinkAsync(clinic, people, visit, cancellation).ConfigureAwait(false)}  a plan after a visit").ConfigureAwait(false);
    }

    static async Task<string> LinkAsync(InventedClinic clinic, InventedPeople people, string conversation, CancellationToken cancellation)
    {
        var link = Secret.New();
        await clinic.Turns.TakeAsync(conversation, new Turn(people.NextIdentifier(), null, new TurnContent.AskForLink()), [Talk.KeyOfLink(link)], cancellation).ConfigureAwait(false);
        return VisitLinks.PathOf(link);
    }
}
