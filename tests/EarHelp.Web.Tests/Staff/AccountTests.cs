using System.Net;
using EarHelp.Clinic.Auditing;
using EarHelp.Clinic.Keeping;
using EarHelp.Clinic.Staff;
using Microsoft.Extensions.DependencyInjection;

namespace EarHelp.Web.Tests.Staff;

[Collection(OneClinicStaff.Name)]
public sealed class AccountTests(ClinicStaff staff)
{
    [Fact]
    public async Task Only_an_administrator_sees_accounts_and_the_audit_trail()
    {
        using var desk = await staff.NewAsync("desk", "clinician", "author", "approver");

        foreach (var address in (string[])["/staff/accounts", "/staff/audit"])
        {
            Assert.Equal(HttpStatusCode.Forbidden, (await desk.Browser.ReadAsync(address)).Status);
            Assert.Equal(HttpStatusCode.OK, (await staff.Administrator.Browser.ReadAsync(address)).Status);
        }

        Assert.DoesNotContain("/staff/accounts", (await desk.Browser.ReadAsync("/staff")).Html, StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_role_counts_and_ends_at_once_for_who_is_signed_in()
    {
        using var colleague = await staff.NewAsync("desk");
        var address = "/staff/accounts/" + await staff.AccountOfAsync(colleague.Name);

        await staff.Administrator.SendAsync(address + "/roles", await staff.Administrator.Browser.ReadAsync(address), ("roles", "administrator"));
        Assert.Equal(HttpStatusCode.OK, (await colleague.Browser.ReadAsync("/staff/accounts")).Status);

        await staff.Administrator.SendAsync(address + "/roles", await staff.Administrator.Browser.ReadAsync(address), ("roles", "desk"));
        Assert.Equal(HttpStatusCode.Forbidden, (await colleague.Browser.ReadAsync("/staff/accounts")).Status);
    }

    [Fact]
    public async Task A_closed_account_is_out_at_once_and_nothing_brings_it_back()
    {
        using var colleague = await staff.NewAsync("desk");
        var address = "/staff/accounts/" + await staff.AccountOfAsync(colleague.Name);

        await staff.Administrator.SendAsync(address + "/close", await staff.Administrator.Browser.ReadAsync(address));

        Assert.Equal("/staff/sign-in", (await colleague.Browser.ReadAsync("/staff")).Address.AbsolutePath);
        Assert.Equal(422, (int)(await colleague.SignInAsync()).Status);
    }

    [Fact]
    public async Task A_new_code_ends_the_old_password_and_lets_the_person_join_again()
    {
        using var colleague = await staff.NewAsync("desk");
        var address = "/staff/accounts/" + await staff.AccountOfAsync(colleague.Name);

        var invited = await staff.Administrator.SendAsync(address + "/code", await staff.Administrator.Browser.ReadAsync(address));
        Assert.Equal("/staff/sign-in", (await colleague.Browser.ReadAsync("/staff")).Address.AbsolutePath);
        Assert.Equal(422, (int)(await colleague.SignInAsync()).Status);

        var code = System.Text.RegularExpressions.Regex.Match(invited.Html, "id=\"code\">(?<code>[^<]+)<").Groups["code"].Value;
        Assert.Equal("/staff", (await colleague.JoinAsync(code)).Address.AbsolutePath);
        var account = await staff.Running.Services.GetRequiredService<IStaffStore>().FindAsync(address.Split('/')[^1], default);
        Assert.Equal(StaffRole.Desk, Assert.Single(account!.Roles));
    }

    [Fact]
    public async Task The_last_administrator_stays_one()
    {
        var address = "/staff/accounts/" + await staff.AccountOfAsync("ada");
        var page = await staff.Administrator.Browser.ReadAsync(address);

        foreach (var (form, roles) in ((string, string)[])[("/roles", "desk"), ("/code", ""), ("/close", "")])
        {
            var refused = await staff.Administrator.SendAsync(address + form, page, ("roles", roles));
            Assert.Contains("Nobody else is an administrator", refused.Text, StringComparison.Ordinal);
        }

        Assert.Equal(HttpStatusCode.OK, (await staff.Administrator.Browser.ReadAsync(address)).Status);
    }

    [Fact]
    public async Task What_is_done_with_accounts_stands_in_the_trail_with_who_did_it()
    {
        using var colleague = await staff.NewAsync("desk");
        var (ada, account) = (await staff.AccountOfAsync("ada"), await staff.AccountOfAsync(colleague.Name));

        var about = (await staff.AuditAsync()).Where(e => e.Account == account || e.Who == account).Select(e => (e.Who, e.Deed));

        Assert.Equal([(ada, AuditDeed.Invited), (account, AuditDeed.Joined), (account, AuditDeed.SignedIn)], about);
        var page = await staff.Administrator.Browser.ReadAsync("/staff/audit");
        Assert.Contains("Took the one-time code", page.Text, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Erasing_a_patient_leaves_a_row_without_content()
    {
        using var patient = staff.Running.NewPatient();
        await patient.BeginAsync("my left ear went dull");
        var conversation = await staff.Running.ConversationOfAsync(patient);
        using var socket = staff.Running.Socket();

        using var erased = await socket.PostAsync(new Uri("/control/erase/" + conversation, UriKind.Relative), null);

        Assert.Equal(HttpStatusCode.OK, erased.StatusCode);
        var row = Assert.Single(await staff.AuditAsync(), e => e.Conversation == conversation);
        Assert.Equal(new AuditEntry(row.At, Actor.Terminal, AuditDeed.Erased, conversation), row);
    }
}
