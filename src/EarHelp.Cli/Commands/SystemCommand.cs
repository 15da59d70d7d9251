using System.Collections.Immutable;
using System.CommandLine;
using System.Net.Http.Json;
using System.Text.Json;
using EarHelp.Cli.Keeping;
using EarHelp.Cli.Teaching;
using EarHelp.Clinic.Auditing;
using EarHelp.Web.Staff;
using EarHelp.Web.Systems;

namespace EarHelp.Cli.Commands;

/// <summary><c>earhelp system</c>: lets one of the clinic's own systems read by a token, or ends that.</summary>
public static class SystemCommand
{
    const string Lesson = """
        A system reads requests, visits and records (HL7 FHIR R4) over HTTP at /api/clinic and changes nothing; what it may ask for stands in
        /api/clinic/openapi.json. The token is printed once and kept nowhere: the store holds its hash. It goes into the header
        "Authorization: Bearer TOKEN". Each reading stands in the audit trail under the system's identifier, and so do making and ending a token.
        If a service has the data folder, it is asked over the socket there.
        Exit code 0; 1 if there is no such system to be ended; 2 on wrong use.

        Try:
          earhelp system "Record system" --data FOLDER
          earhelp system --list
          earhelp system --end 0Q3k...
        """;

    static readonly JsonSerializerOptions Json = new(JsonSerializerDefaults.Web);

    public static Command Make(Terminal terminal, TimeProvider clock)
    {
        var name = new Argument<string?>("NAME") { Description = "The system, as colleagues read it.", Arity = ArgumentArity.ZeroOrOne };
        var list = new Option<bool>("--list") { Description = "Print the systems that may read." };
        var end = new Option<string?>("--end") { Description = "End the token of this system.", HelpName = "ID" };
        var (root, data) = (SharedOptions.Root(), SharedOptions.Data());
        var command = new TaughtCommand("system", "Let one of the clinic's own systems read, by a token.", Lesson) { name, list, end, root, data };
        command.SetAction(async (parsed, cancellation) =>
        {
            var (called, ended) = (parsed.GetValue(name)?.Trim(), parsed.GetValue(end));
            if ((called is { Length: > 0 } ? 1 : 0) + (ended is null ? 0 : 1) + (parsed.GetValue(list) ? 1 : 0) != 1)
                throw new WrongUseException("name a system, or --list, or --end ID.");
            var folder = KeptFolder.Find(parsed.GetValue(data), parsed.GetValue(root), terminal);
            using var service = RunningService.Find(folder);
            await using var store = service is null ? OpenedStore.Open(folder, terminal) : null;
            var access = store is null ? null : new SystemAccess(store.Staff, new Auditor(store.Audit, clock));
            if (ended is not null)
                return await EndAsync(service, access, ended, terminal, cancellation).ConfigureAwait(false);
            if (called is { Length: > 0 })
                return await LetReadAsync(service, access, called, terminal, cancellation).ConfigureAwait(false);
            foreach (var system in await ListAsync(service, access, cancellation).ConfigureAwait(false))
                await terminal.Out.WriteLineAsync($"{system.Id}  {system.Name}").ConfigureAwait(false);
            return ExitCode.Fine;
        });
        return command;
    }

    static async Task<int> LetReadAsync(RunningService? service, SystemAccess? access, string name, Terminal terminal, CancellationToken cancellation)
    {
        SystemControl.Made made;
        if (access is not null)
        {
            var (account, token) = await access.LetReadAsync(Actor.Terminal, name, cancellation).ConfigureAwait(false);
            made = new SystemControl.Made(account.Id, token);
        }
        else
        {
            using var content = JsonContent.Create(new SystemControl.Wanted(name));
            var (_, bytes) = await service!.SendAsync(HttpMethod.Post, "control/systems", content, cancellation).ConfigureAwait(false);
            made = JsonSerializer.Deserialize<SystemControl.Made>(bytes, Json)!;
        }

        await terminal.Out.WriteLineAsync($"system {made.Id}\ntoken {made.Token}").ConfigureAwait(false);
        return ExitCode.Fine;
    }

    static async Task<int> EndAsync(RunningService? service, SystemAccess? access, string id, Terminal terminal, CancellationToken cancellation)
    {
        var isEnded = access is not null
            ? await access.EndAsync(Actor.Terminal, id, cancellation).ConfigureAwait(false)
            : (await service!.SendAsync(HttpMethod.Post, $"control/systems/{Uri.EscapeDataString(id)}/end", null, cancellation).ConfigureAwait(false)).Status == 200;
        if (isEnded)
            return ExitCode.Fine;
        await terminal.Error.WriteLineAsync($"earhelp: there is no system \"{id}\" that may read. earhelp system --list prints them.").ConfigureAwait(false);
        return ExitCode.FaultsFound;
    }

    static async Task<ImmutableArray<SystemControl.Listed>> ListAsync(RunningService? service, SystemAccess? access, CancellationToken cancellation)
    {
        if (access is not null)
            return [.. (await access.AllAsync(cancellation).ConfigureAwait(false)).Select(a => new SystemControl.Listed(a.Id, a.ShownName))];
        return JsonSerializer.Deserialize<ImmutableArray<SystemControl.Listed>>((await service!.SendAsync(HttpMethod.Get, "control/systems", null, cancellation).ConfigureAwait(false)).Bytes, Json);
    }
}
