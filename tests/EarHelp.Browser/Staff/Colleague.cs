using System.Text.RegularExpressions;
using EarHelp.Browser.Running;
using EarHelp.Clinic.Keeping;
using EarHelp.Clinic.Staff;
using EarHelp.Web.Security;
using Microsoft.Playwright;
using NodaTime;

namespace EarHelp.Browser.Staff;

/// <summary>A member of staff who joins and signs in with a password and one-time codes.</summary>
static partial class Colleague
{
    const string Password = "three quiet otters";

    /// <summary>An invitation, as an administrator makes one.</summary>
    public static async Task<string> InvitedAsync(Service service, params StaffRole[] roles)
    {
        var code = ReceiptCode.For(Secret.New(), "test");
        var invitation = new Invitation(Secret.HashOf(code), Instant.FromUtc(2100, 1, 1, 0, 0));
        var account = new StaffAccount(Secret.NewIdentifier(), 1, "Kim Lark", [.. roles], StaffState.Invited, Secret.NewIdentifier()) { Invitation = invitation };
        await service.Part<IStaffStore>().PutAsync(account, CancellationToken.None);
        return code;
    }

    /// <summary>From the form with the code to the first page of staff.</summary>
    public static async Task JoinAsync(Visit visit, Service service, string code, string name, string ownName = "", Func<string, Task>? look = null)
    {
        await visit.Page.GotoAsync(new Uri(service.Address, "/staff/join").ToString());
        await LookAsync("staff-1-join");
        await visit.Page.GetByLabel("The code that you were given").FillAsync(code);
        await visit.Page.GetByLabel("Your name, as colleagues read it").FillAsync(ownName);
        await visit.Page.GetByLabel("Name to sign in with").FillAsync(name);
        await visit.Page.GetByLabel("Password").FillAsync(Password);
        await PressAsync(visit, "Go on");
        await LookAsync("staff-2-key");
        var key = await visit.Page.Locator("#key").InnerTextAsync();
        await visit.Page.GetByLabel("One-time code").FillAsync(OneTimeCode.Of(key, 0));
        await PressAsync(visit, "Finish");
        await LookAsync("staff-3-sign-in");
        await visit.Page.GetByLabel("Name to sign in with").FillAsync(name);
        await visit.Page.GetByLabel("Password").FillAsync(Password);
        await visit.Page.GetByLabel("One-time code").FillAsync(OneTimeCode.Of(key, 1));
        await PressAsync(visit, "Sign in");

        Task LookAsync(string state) => look?.Invoke(state) ?? Task.CompletedTask;
    }

    public static Task PressAsync(Visit visit, string button) => visit.Page.GetByRole(AriaRole.Button, new() { Name = button, Exact = true }).ClickAsync();

    public static Task FollowAsync(Visit visit, string link) => visit.Page.GetByRole(AriaRole.Link, new() { Name = link, Exact = true }).ClickAsync();

    /// <summary>The code of the first account, as the service printed it.</summary>
    public static string PrintedCode(Service service) => Code().Match(service.Printed).Value;

    [GeneratedRegex("(?<=one-time code: )[0-9A-Z ]{39}")]
    private static partial Regex Code();
}
