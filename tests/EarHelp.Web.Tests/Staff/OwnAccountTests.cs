using System.Net;
using System.Text.RegularExpressions;
using EarHelp.Clinic.Auditing;
using EarHelp.Web.Tests.Running;

namespace EarHelp.Web.Tests.Staff;

/// <summary>A member of staff changes the password and moves the one-time codes, and shows again who they are before.</summary>
[Collection(OneClinicStaff.Name)]
public sealed class OwnAccountTests(ClinicStaff staff)
{
    const string Password = "/staff/me/password", Codes = "/staff/me/codes", NewPassword = "seven loud herons";

    [Fact]
    public async Task A_new_password_counts_at_once_and_the_old_one_opens_nothing()
    {
        using var colleague = await staff.NewAsync("desk");

        var done = await ChangePasswordAsync(colleague, Colleague.Password, colleague.NextCode(), NewPassword);

        Assert.Contains("Your password is changed", done.Text, StringComparison.Ordinal);
        Assert.Equal(HttpStatusCode.OK, (await colleague.Browser.ReadAsync("/staff/me")).Status);
        await SignOutAsync(colleague);
        Assert.Equal(422, (int)(await colleague.SignInAsync(Colleague.Password)).Status);
        Assert.Contains(await AuditAsync(colleague), e => e.Deed == AuditDeed.PasswordChanged);
    }

    [Fact]
    public async Task A_browser_that_was_signed_in_before_is_out_after_the_password_was_changed()
    {
        using var colleague = await staff.NewAsync("desk");
        var before = staff.Running.Again(colleague.Browser);
        var cookies = new CookieContainer();
        foreach (Cookie cookie in before.Cookies.GetAllCookies())
            cookies.Add(new Cookie(cookie.Name, cookie.Value, cookie.Path, cookie.Domain));
        using var elsewhere = new Patient(staff.Running.Address, cookies);
        Assert.Equal("/staff/me", (await elsewhere.ReadAsync("/staff/me")).Address.AbsolutePath);

        await ChangePasswordAsync(colleague, Colleague.Password, colleague.NextCode(), NewPassword);

        Assert.Equal("/staff/sign-in", (await elsewhere.ReadAsync("/staff/me")).Address.AbsolutePath);
    }

    [Theory]
    [InlineData("three loud otters", true, "That did not work", AuditDeed.SignInRefused)]
    [InlineData(Colleague.Password, false, "That did not work", AuditDeed.SignInRefused)]
    public async Task Who_cannot_show_who_they_are_changes_nothing_and_the_try_is_counted(string password, bool isCodeRight, string told, AuditDeed deed)
    {
        using var colleague = await staff.NewAsync("desk");

        var refused = await ChangePasswordAsync(colleague, password, isCodeRight ? colleague.NextCode() : "000000", NewPassword);

        Assert.Equal(HttpStatusCode.UnprocessableEntity, refused.Status);
        Assert.Contains(told, refused.Text, StringComparison.Ordinal);
        Assert.Equal(deed, (await AuditAsync(colleague)).Last().Deed);
        Assert.DoesNotContain(await AuditAsync(colleague), e => e.Deed == AuditDeed.PasswordChanged);
    }

    [Fact]
    public async Task A_password_that_is_too_short_is_not_taken()
    {
        using var colleague = await staff.NewAsync("desk");

        var refused = await ChangePasswordAsync(colleague, Colleague.Password, colleague.NextCode(), "short");

        Assert.Contains("The password is too short", refused.Text, StringComparison.Ordinal);
    }

    [Fact]
    public async Task The_codes_of_another_app_count_once_one_of_them_was_typed_and_the_old_ones_stop()
    {
        using var colleague = await staff.NewAsync("desk");
        var shown = await ShowKeyAsync(colleague);
        var key = Regex.Match(shown.Html, "id=\"key\">(?<key>[^<]+)<").Groups["key"].Value;

        var wrong = await ConfirmAsync(colleague, shown, "000000");
        Assert.Contains("This is not the code of now", wrong.Text, StringComparison.Ordinal);
        var done = await ConfirmAsync(colleague, wrong, OneTimeCode.Of(key, DateTimeOffset.UtcNow, -1));

        Assert.Contains("count from now on", done.Text, StringComparison.Ordinal);
        await SignOutAsync(colleague);
        Assert.Equal(422, (int)(await colleague.SignInAsync()).Status);
        Assert.Equal("/staff", (await colleague.SignInAsync(code: OneTimeCode.Of(key, DateTimeOffset.UtcNow))).Address.AbsolutePath);
        Assert.Contains(await AuditAsync(colleague), e => e.Deed == AuditDeed.CodeKeyChanged);
    }

    [Fact]
    public async Task A_key_that_was_shown_to_somebody_else_or_was_changed_is_not_taken()
    {
        using var one = await staff.NewAsync("desk");
        using var other = await staff.NewAsync("desk");
        var shown = await ShowKeyAsync(one);
        var own = await ShowKeyAsync(other);
        var key = Regex.Match(shown.Html, "id=\"key\">(?<key>[^<]+)<").Groups["key"].Value;
        var form = own.FormTo(Codes + "/confirm");

        foreach (var sealedKey in (string[])[shown.FormTo(Codes + "/confirm")["sealed-key"], "nothing", ""])
        {
            form["sealed-key"] = sealedKey;
            var refused = await other.Browser.PostAsync(Codes + "/confirm", form.Append(new("code", OneTimeCode.Of(key, DateTimeOffset.UtcNow))));
            Assert.Contains("open too long", refused.Text, StringComparison.Ordinal);
        }
    }

    static async Task<PageRead> ChangePasswordAsync(Colleague colleague, string password, string code, string next) =>
        await colleague.SendAsync(Password, await colleague.Browser.ReadAsync(Password), ("password", password), ("code", code), ("new-password", next));

    static async Task SignOutAsync(Colleague colleague) => await colleague.SendAsync("/staff/sign-out", await colleague.Browser.ReadAsync("/staff/me"));

    static async Task<PageRead> ShowKeyAsync(Colleague colleague) =>
        await colleague.SendAsync(Codes, await colleague.Browser.ReadAsync(Codes), ("password", Colleague.Password), ("code", colleague.NextCode()));

    static Task<PageRead> ConfirmAsync(Colleague colleague, PageRead shown, string code) => colleague.SendAsync(Codes + "/confirm", shown, ("code", code));

    async Task<List<AuditEntry>> AuditAsync(Colleague colleague)
    {
        var account = await staff.AccountOfAsync(colleague.Name);
        return [.. (await staff.AuditAsync()).Where(e => e.Who == account)];
    }
}
