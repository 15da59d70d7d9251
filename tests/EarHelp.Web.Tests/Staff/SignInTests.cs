using System.Net;
using EarHelp.Clinic.Auditing;
using EarHelp.Clinic.Keeping;
using EarHelp.Clinic.Staff;
using EarHelp.Web.Tests.Running;
using Microsoft.Extensions.DependencyInjection;

namespace EarHelp.Web.Tests.Staff;

[Collection(OneClinicStaff.Name)]
public sealed class SignInTests(ClinicStaff staff)
{
    [Fact]
    public async Task Before_anybody_has_joined_there_is_no_account_and_the_printed_code_makes_exactly_one_administrator()
    {
        await using var service = await RunningService.StartAsync();
        var store = service.Services.GetRequiredService<IStaffStore>();
        Assert.Empty(await store.AllAsync(default));
        using var first = new Colleague(service, "first");
        using var second = new Colleague(service, "second");
        var code = ClinicStaff.PrintedCode(service);

        var home = await first.JoinAsync(code);
        var again = await second.SendAsync("/staff/join", await second.Browser.ReadAsync("/staff/join"), ("code", code), ("own-name", "x"), ("name", "second"), ("password", Colleague.Password));

        Assert.Equal("/staff", home.Address.AbsolutePath);
        Assert.Equal(422, (int)again.Status);
        Assert.Contains("This code opens nothing", again.Text, StringComparison.Ordinal);
        var account = Assert.Single(await store.AllAsync(default));
        Assert.Equal((StaffState.Open, StaffRole.Administrator), (account.State, Assert.Single(account.Roles)));
        await service.StartAgainAsync();
        Assert.Equal(code, ClinicStaff.PrintedCode(service));
        using var patient = service.NewPatient();
        Assert.Equal("/staff/sign-in", (await patient.ReadAsync("/staff")).Address.AbsolutePath);
    }

    [Fact]
    public async Task Nobody_signs_in_with_a_wrong_password_a_wrong_code_or_a_code_that_was_used()
    {
        using var colleague = await staff.NewAsync("desk");
        var used = colleague.NextCode();
        Assert.Equal("/staff", (await SignInElsewhereAsync(colleague, Colleague.Password, used)).Address.AbsolutePath);

        var wrongPassword = await SignInElsewhereAsync(colleague, "three quiet badgers", colleague.NextCode());
        var usedCode = await SignInElsewhereAsync(colleague, Colleague.Password, used);
        var noCode = await SignInElsewhereAsync(colleague, Colleague.Password, "000000");

        foreach (var refused in (PageRead[])[wrongPassword, usedCode, noCode])
            Assert.Equal((422, "/staff/sign-in"), ((int)refused.Status, refused.Address.AbsolutePath));
        var account = await staff.AccountOfAsync(colleague.Name);
        Assert.Equal(3, (await staff.AuditAsync()).Count(e => e.Who == account && e.Deed == AuditDeed.SignInRefused));
    }

    [Fact]
    public async Task Five_wrong_tries_side_by_side_lock_the_account_also_against_the_right_password()
    {
        using var colleague = await staff.NewAsync("desk");

        await Task.WhenAll(Enumerable.Range(0, 5).Select(_ => SignInElsewhereAsync(colleague, "three quiet badgers", "000000")));
        var right = await SignInElsewhereAsync(colleague, Colleague.Password, colleague.NextCode());

        Assert.Equal(422, (int)right.Status);
        var account = await staff.Running.Services.GetRequiredService<IStaffStore>().FindAsync(await staff.AccountOfAsync(colleague.Name), default);
        Assert.NotNull(account!.LockedUntil);
    }

    [Fact]
    public async Task Signing_out_ends_it_in_this_browser()
    {
        using var colleague = await staff.NewAsync("desk");
        var home = await colleague.Browser.ReadAsync("/staff");
        Assert.Equal("/staff", home.Address.AbsolutePath);

        var signedOut = await colleague.SendAsync("/staff/sign-out", home);

        Assert.Equal("/staff/sign-in", signedOut.Address.AbsolutePath);
        Assert.Equal("/staff/sign-in", (await colleague.Browser.ReadAsync("/staff")).Address.AbsolutePath);
    }

    [Fact]
    public async Task The_cookie_of_staff_is_sent_to_no_page_of_patients_and_no_script_can_read_it()
    {
        using var colleague = await staff.NewAsync("desk");

        var cookie = colleague.Browser.Cookies.GetCookies(new Uri(staff.Running.Address, "/staff"))["earhelp-staff"]!;

        Assert.Equal(("/staff", true), (cookie.Path, cookie.HttpOnly));
        Assert.Null(colleague.Browser.Cookies.GetCookies(staff.Running.Address)["earhelp-staff"]);
    }

    [Fact]
    public async Task A_form_without_its_token_or_from_another_site_changes_nothing()
    {
        using var colleague = await staff.NewAsync("desk");
        var home = await colleague.Browser.ReadAsync("/staff");

        var bare = await colleague.Browser.SendAsync("/staff/sign-out", []);
        var foreign = await colleague.Browser.SendAsync("/staff/sign-out", home.FormTo("/staff/sign-out"), ("Sec-Fetch-Site", "cross-site"));

        Assert.Equal((HttpStatusCode.BadRequest, HttpStatusCode.BadRequest), (bare.StatusCode, foreign.StatusCode));
        Assert.Equal("/staff", (await colleague.Browser.ReadAsync("/staff")).Address.AbsolutePath);
    }

    [Fact]
    public async Task A_short_password_and_a_name_that_somebody_has_are_refused_and_the_invitation_still_works()
    {
        var code = await staff.InviteAsync("newcomer", "desk");
        using var newcomer = new Colleague(staff.Running, "newcomer");
        var join = await newcomer.Browser.ReadAsync("/staff/join");

        var tooShort = await newcomer.SendAsync("/staff/join", join, ("code", code), ("own-name", ""), ("name", "newcomer"), ("password", "short words"));
        var taken = await newcomer.SendAsync("/staff/join", join, ("code", code), ("own-name", ""), ("name", " ADA "), ("password", Colleague.Password));

        Assert.Contains("Use at least 12 letters", tooShort.Text, StringComparison.Ordinal);
        Assert.Contains("Choose another one", taken.Text, StringComparison.Ordinal);
        Assert.Equal("/staff", (await newcomer.JoinAsync(code)).Address.AbsolutePath);
    }

    async Task<PageRead> SignInElsewhereAsync(Colleague colleague, string password, string code)
    {
        using var browser = staff.Running.NewPatient();
        var form = (await browser.ReadAsync("/staff/sign-in")).FormTo("/staff/sign-in");
        return await browser.PostAsync("/staff/sign-in", [.. form, new("name", colleague.Name), new("password", password), new("code", code)]);
    }
}
