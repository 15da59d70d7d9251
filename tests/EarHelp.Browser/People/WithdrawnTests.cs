using EarHelp.Browser.Checks;
using EarHelp.Browser.Running;
using EarHelp.Conversation.Signing;
using EarHelp.Web.Editions;
using Microsoft.Playwright;

namespace EarHelp.Browser.People;

[Collection(ServiceAndBrowser.Name)]
public sealed class WithdrawnTests(Service service)
{
    [Theory]
    [InlineData("phone")]
    [InlineData("desktop-plain")]
    public async Task Who_answers_while_all_is_withdrawn_is_told_and_goes_on_afterwards_without_answering_again(string device)
    {
        await using var visit = await Visit.BeginAsync(service, Device.Named(device));
        await visit.StartAsync();
        await visit.FillFormAsync(Person.Swimmer);
        Assert.Equal("danger signs", await visit.ScreenAsync());
        await DoAsync(DeedKind.Withdrawn);
        try
        {
            await visit.Now.Locator(".apart input[name=none]").CheckAsync();
            await visit.Now.GetByRole(AriaRole.Button, new() { Name = "Continue" }).ClickAsync();

            await Assertions.Expect(visit.Page.GetByRole(AriaRole.Heading, new() { Name = "Please speak to a person" })).ToBeVisibleAsync();
            await visit.KeepPictureAsync("withdrawn");
            await Axe.FindsNothingAsync(visit, "what stands in the place of what is withdrawn");
        }
        finally
        {
            await DoAsync(DeedKind.Lifted);
        }

        await visit.Page.GetByRole(AriaRole.Button, new() { Name = "Look whether it is back" }).ClickAsync();
        await Assertions.Expect(visit.Now).ToBeVisibleAsync();
        Assert.NotEqual("danger signs", await visit.ScreenAsync());
        Assert.Empty(visit.Complaints);
    }

    async Task DoAsync(DeedKind kind)
    {
        var deed = new Deed(kind, string.Empty, 0, "Bo", "ear surgeon", "a complaint");
        Assert.IsType<AddedDeed.Added>(await service.Part<EditionDeeds>().AddAsync(deed, service.Part<LedgerInForce>().Ledger.LastHash, CancellationToken.None));
    }
}
