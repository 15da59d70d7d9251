using System.Text.RegularExpressions;
using EarHelp.Browser.Checks;
using EarHelp.Browser.Running;
using Microsoft.Playwright;
using static Microsoft.Playwright.Assertions;

namespace EarHelp.Browser.Staff;

/// <summary>The first member of staff joins with the printed code, invites a colleague, and signs in with a passkey.</summary>
[Collection(ServiceAndBrowser.Name)]
public sealed partial class SigningInTests(Service service)
{
    [Fact]
    public async Task The_first_administrator_joins_adds_a_passkey_signs_in_with_it_and_invites_a_colleague_without_script()
    {
        await using var ada = await Visit.BeginAsync(service, Device.Desktop);
        await AddAuthenticatorAsync(ada);
        await ada.Page.GotoAsync(new Uri(service.Address, "/staff/join").ToString());
        await JoinAsync(ada, PrintedCode().Match(service.Printed).Value, "ada", "Ada Quill");

        await FollowAsync(ada, "Your account");
        await PressAsync(ada, "Add a passkey of this device");
        await Expect(ada.Page.GetByText("Made on")).ToBeVisibleAsync();
        await LookAsync(ada, "staff-4-me");
        await ada.Page.GetByRole(AriaRole.Button, new() { NameRegex = SignOut() }).ClickAsync();
        await PressAsync(ada, "Sign in with a passkey");
        await Expect(ada.Page.GetByText("Signed in: Ada Quill")).ToBeVisibleAsync();

        await FollowAsync(ada, "Accounts of staff");
        await ada.Page.GetByLabel("Name, as colleagues read it").FillAsync("Bo Tansy");
        await ada.Page.GetByLabel("Desk").CheckAsync();
        await LookAsync(ada, "staff-5-accounts");
        await PressAsync(ada, "Make a code");
        await LookAsync(ada, "staff-6-invited");
        var code = await ada.Page.Locator("#code").InnerTextAsync();

        await using var bo = await Visit.BeginAsync(service, Device.PlainPhone);
        await bo.Page.GotoAsync(new Uri(service.Address, "/staff/join").ToString());
        await JoinAsync(bo, code, "bo", "");
        await Expect(bo.Page.GetByText("Signed in: Bo Tansy")).ToBeVisibleAsync();
        Assert.Equal(0, await bo.Page.GetByRole(AriaRole.Link, new() { Name = "Accounts of staff" }).CountAsync());

        await FollowAsync(ada, "Audit trail");
        await Expect(ada.Page.GetByRole(AriaRole.Cell, new() { Name = "Added a passkey" })).ToBeVisibleAsync();
        await LookAsync(ada, "staff-7-audit");
        Assert.Empty(ada.Complaints.Concat(bo.Complaints));
    }

    /// <summary>From the form with the code to the first page of staff.</summary>
    static async Task JoinAsync(Visit visit, string code, string name, string ownName)
    {
        await LookAsync(visit, "staff-1-join");
        await visit.Page.GetByLabel("The code that you were given").FillAsync(code);
        await visit.Page.GetByLabel("Your name, as colleagues read it").FillAsync(ownName);
        await visit.Page.GetByLabel("Name to sign in with").FillAsync(name);
        await visit.Page.GetByLabel("Password").FillAsync("three quiet otters");
        await PressAsync(visit, "Go on");
        await LookAsync(visit, "staff-2-key");
        var key = await visit.Page.Locator("#key").InnerTextAsync();
        await visit.Page.GetByLabel("One-time code").FillAsync(OneTimeCode.Of(key, 0));
        await PressAsync(visit, "Finish");
        await LookAsync(visit, "staff-3-sign-in");
        await visit.Page.GetByLabel("Name to sign in with").FillAsync(name);
        await visit.Page.GetByLabel("Password").FillAsync("three quiet otters");
        await visit.Page.GetByLabel("One-time code").FillAsync(OneTimeCode.Of(key, 1));
        await visit.Page.GetByRole(AriaRole.Button, new() { Name = "Sign in", Exact = true }).ClickAsync();
    }

    /// <summary>An authenticator in the browser itself (Web Authentication Level 3, 11, "user agent automation").</summary>
    static async Task AddAuthenticatorAsync(Visit visit)
    {
        var session = await visit.Page.Context.NewCDPSessionAsync(visit.Page);
        await session.SendAsync("WebAuthn.enable");
        await session.SendAsync("WebAuthn.addVirtualAuthenticator", new Dictionary<string, object>
        {
            ["options"] = new Dictionary<string, object>
            {
                ["protocol"] = "ctap2",
                ["transport"] = "internal",
                ["hasResidentKey"] = true,
                ["hasUserVerification"] = true,
                ["isUserVerified"] = true,
                ["automaticPresenceSimulation"] = true,
            },
        });
    }

    static Task PressAsync(Visit visit, string button) => visit.Page.GetByRole(AriaRole.Button, new() { Name = button, Exact = true }).ClickAsync();

    static Task FollowAsync(Visit visit, string link) => visit.Page.GetByRole(AriaRole.Link, new() { Name = link, Exact = true }).ClickAsync();

    static async Task LookAsync(Visit visit, string state)
    {
        await visit.Page.WaitForLoadStateAsync(LoadState.Load);
        await visit.KeepPictureAsync(state);
        await Axe.FindsNothingAsync(visit, state);
        await Looks.FitsItsWidthAsync(visit, state);
    }

    [GeneratedRegex("(?<=one-time code: )[0-9A-Z ]{39}")]
    private static partial Regex PrintedCode();

    [GeneratedRegex("^Sign out")]
    private static partial Regex SignOut();
}
