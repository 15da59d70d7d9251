using System.Text.RegularExpressions;
using EarHelp.Browser.Checks;
using EarHelp.Browser.Running;
using Microsoft.Playwright;
using static EarHelp.Browser.Staff.Colleague;
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
        await JoinAsync(ada, service, PrintedCode(service), "ada", "Ada Quill", s => Looks.WellAsync(ada, s));

        await FollowAsync(ada, "Your account");
        await PressAsync(ada, "Add a passkey of this device");
        await Expect(ada.Page.GetByText("Made at")).ToBeVisibleAsync();
        await Looks.WellAsync(ada, "staff-4-me");
        await ada.Page.GetByRole(AriaRole.Button, new() { NameRegex = SignOut() }).ClickAsync();
        await PressAsync(ada, "Sign in with a passkey");
        await Expect(ada.Page.GetByText("Signed in: Ada Quill")).ToBeVisibleAsync();

        await FollowAsync(ada, "Accounts of staff");
        await ada.Page.GetByLabel("Name, as colleagues read it").FillAsync("Bo Tansy");
        await ada.Page.GetByLabel("Desk").CheckAsync();
        await Looks.WellAsync(ada, "staff-5-accounts");
        await PressAsync(ada, "Make a code");
        await Looks.WellAsync(ada, "staff-6-invited");
        var code = await ada.Page.Locator("#code").InnerTextAsync();

        await using var bo = await Visit.BeginAsync(service, Device.PlainPhone);
        await JoinAsync(bo, service, code, "bo", look: s => Looks.WellAsync(bo, s));
        await Expect(bo.Page.GetByText("Signed in: Bo Tansy")).ToBeVisibleAsync();
        Assert.Equal(0, await bo.Page.GetByRole(AriaRole.Link, new() { Name = "Accounts of staff" }).CountAsync());

        await FollowAsync(ada, "Audit trail");
        await Expect(ada.Page.GetByRole(AriaRole.Cell, new() { Name = "Added a passkey" })).ToBeVisibleAsync();
        await Looks.WellAsync(ada, "staff-7-audit");
        Assert.Empty(ada.Complaints.Concat(bo.Complaints));
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

    [GeneratedRegex("^Sign out")]
    private static partial Regex SignOut();
}
