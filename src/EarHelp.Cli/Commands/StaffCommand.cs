using System.Collections.Immutable;
using System.CommandLine;
using System.Text.Json;
using EarHelp.Cli.Keeping;
using EarHelp.Cli.Teaching;
using EarHelp.Clinic.Staff;
using EarHelp.Web.Staff;

namespace EarHelp.Cli.Commands;

/// <summary><c>earhelp staff</c>: the accounts of staff, and a way back in for who has lost everything.</summary>
public static class StaffCommand
{
    const string Lesson = """
        Prints the accounts of staff: identifier, name, name to sign in with, roles, state.
        --code makes a one-time code for an account whose person has lost password, app and passkeys, and prints it once. What the person had before
        stops at once, and who is signed in with it is out. It works for the only administrator, too. Give the code to that person and nobody
        else; it opens /staff/join for 4 days. Making it stands in the audit trail as done at the terminal.
        Whoever may use the data folder may do this: keep the folder to yourself. If a service has it, it is asked over the socket there.
        Exit code 0; 1 if there is no such account.

        Try:
          earhelp staff --data FOLDER
          earhelp staff --code ada
        """;

    static readonly JsonSerializerOptions Json = new(JsonSerializerDefaults.Web);

    public static Command Make(Terminal terminal, TimeProvider clock)
    {
        var code = new Option<string?>("--code") { Description = "Make a one-time code for this account.", HelpName = "ID OR NAME" };
        var (root, data) = (SharedOptions.Root(), SharedOptions.Data());
        var command = new TaughtCommand("staff", "List the accounts of staff, or let somebody back in.", Lesson) { code, root, data };
        command.SetAction(async (parsed, cancellation) =>
        {
            var folder = KeptFolder.Find(parsed.GetValue(data), parsed.GetValue(root), terminal);
            using var service = RunningService.Find(folder);
            await using var store = service is null ? OpenedStore.Open(folder, terminal) : null;
            if (parsed.GetValue(code) is not { } account)
                return await ListAsync(service, store, terminal, cancellation).ConfigureAwait(false);
            var made = store is not null
                ? await new StaffReturn(store.Staff, new Auditor(store.Audit, clock), clock).MakeCodeAsync(account, cancellation).ConfigureAwait(false)
                : await AskAsync(service!, account, cancellation).ConfigureAwait(false);
            if (made is null)
            {
                await terminal.Error.WriteLineAsync($"earhelp: there is no open account \"{account}\". earhelp staff prints them.").ConfigureAwait(false);
                return ExitCode.FaultsFound;
            }

            await terminal.Out.WriteLineAsync(made).ConfigureAwait(false);
            return ExitCode.Fine;
        });
        return command;
    }

    static async Task<string?> AskAsync(RunningService service, string account, CancellationToken cancellation)
    {
        var (status, bytes) = await service.SendAsync(HttpMethod.Post, $"control/staff/{Uri.EscapeDataString(account)}/code", null, cancellation).ConfigureAwait(false);
        return status == 200 ? JsonSerializer.Deserialize<StaffControl.Made>(bytes, Json)!.Code : null;
    }

    static async Task<int> ListAsync(RunningService? service, OpenedStore? store, Terminal terminal, CancellationToken cancellation)
    {
        var all = store is not null
            ? [.. (await store.Staff.AllAsync(cancellation).ConfigureAwait(false)).Where(a => !a.Roles.Contains(StaffRole.System)).Select(StaffControl.Listed.Of)]
            : JsonSerializer.Deserialize<ImmutableArray<StaffControl.Listed>>((await service!.SendAsync(HttpMethod.Get, "control/staff", null, cancellation).ConfigureAwait(false)).Bytes, Json);
        foreach (var account in all)
            await terminal.Out.WriteLineAsync($"{account.Id}  {account.Name}  {(account.SignsInAs.Length > 0 ? account.SignsInAs : "-")}  {string.Join(", ", account.Roles)}  {account.State}").ConfigureAwait(false);
        return ExitCode.Fine;
    }
}
