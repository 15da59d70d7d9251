using EarHelp.Cli.Tests.Commands;
using EarHelp.Clinic.Auditing;
using EarHelp.Clinic.Keeping;
using EarHelp.Clinic.Staff;
using EarHelp.Web.Tests.Running;
using EarHelp.Web.Tests.Staff;
using Microsoft.Extensions.DependencyInjection;

namespace EarHelp.Cli.Tests.Staff;

/// <summary>The only administrator has lost everything, and whoever runs the service lets them back in.</summary>
public sealed class StaffCommandTests
{
    [Fact]
    public async Task A_code_of_the_command_lets_the_only_administrator_back_in_and_ends_what_was_lost()
    {
        await using var running = await RunningService.StartAsync();
        using var lost = new Colleague(running, "ada");
        await lost.JoinAsync(ClinicStaff.PrintedCode(running));
        var listed = await Called.WithAsync("staff", "--data", running.Data);
        Assert.Contains("  ada of the clinic  ada  Administrator  Open\n", listed.Out, StringComparison.Ordinal);

        var made = await Called.WithAsync("staff", "--code", "ada", "--data", running.Data);

        Assert.Equal((0, string.Empty), (made.ExitCode, made.Error));
        Assert.Equal("/staff/sign-in", (await lost.Browser.ReadAsync("/staff")).Address.AbsolutePath);
        Assert.Equal(422, (int)(await lost.SignInAsync()).Status);
        using var back = new Colleague(running, "ada");
        Assert.Equal("/staff", (await back.JoinAsync(made.Out.Trim())).Address.AbsolutePath);
        var account = Assert.Single(await running.Services.GetRequiredService<IStaffStore>().AllAsync(CancellationToken.None));
        Assert.Equal([StaffRole.Administrator], account.Roles.AsEnumerable());
        var trail = (await running.Services.GetRequiredService<IAuditTrail>().ReadAsync(CancellationToken.None)).Entries;
        Assert.Contains(trail, e => e.Who == Actor.Terminal && e.Deed == AuditDeed.Invited && e.Account == account.Id);
    }

    [Fact]
    public async Task Without_a_service_the_store_is_opened_and_an_unknown_account_is_said()
    {
        var data = Directory.CreateTempSubdirectory("earhelp");

        var called = await Called.WithAsync("staff", "--code", "nobody", "--data", data.FullName);

        Assert.Equal(1, called.ExitCode);
        Assert.Contains("no open account \"nobody\"", called.Error, StringComparison.Ordinal);
        data.Delete(recursive: true);
    }
}
