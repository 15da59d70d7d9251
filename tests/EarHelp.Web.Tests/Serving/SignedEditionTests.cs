using System.Net.Http.Json;
using System.Text.Json;
using EarHelp.Conversation.Signing;
using EarHelp.Web.Editions;
using EarHelp.Web.Tests.Running;
using Microsoft.Extensions.DependencyInjection;
using Microsoft.Extensions.Time.Testing;

namespace EarHelp.Web.Tests.Serving;

public sealed class SignedEditionTests
{
    const string Demonstration = "Demonstration, not for real patients";
    const string Second = "EarHelp Second";

    static readonly DateTimeOffset Now = new(2026, 11, 20, 9, 30, 0, TimeSpan.Zero);

    [Fact]
    public async Task An_expired_signature_puts_the_word_back_everywhere_and_publishes_nothing()
    {
        var clock = new FakeTimeProvider(Now);
        await using var service = await RunningService.StartAsync(configure: services => services.AddSingleton<TimeProvider>(clock));
        using var patient = service.NewPatient();
        var edition = service.Services.GetRequiredService<ServedEditions>().Current!.Edition.Id;
        var file = Path.Combine(service.Data, "emergency.html");
        await TwoPeople.SignAsync(service, edition, Now.AddDays(30));
        Assert.DoesNotContain(Demonstration, (await patient.ReadAsync("/")).Text);
        Assert.DoesNotContain(Demonstration, await File.ReadAllTextAsync(file));
        var rewritten = service.Log.LineWith("the emergency page in the data folder was written anew");

        clock.Pass(TimeSpan.FromDays(30));

        Assert.Contains(Demonstration, (await patient.ReadAsync("/")).Text);
        await rewritten.WaitAsync(TimeSpan.FromSeconds(60));
        Assert.Contains(Demonstration, await File.ReadAllTextAsync(file));
        Assert.IsType<AddedDeed.Refused>(await TwoPeople.PublishAsync(service, edition));
    }

    [Fact]
    public async Task A_changed_file_brings_the_word_back_while_the_files_are_followed()
    {
        await using var service = await RunningService.StartAsync(ownRoot: true);
        using var patient = service.NewPatient();
        var editions = service.Services.GetRequiredService<ServedEditions>();
        await TwoPeople.SignAsync(service, editions.Current!.Edition.Id, TwoPeople.Always);
        Assert.DoesNotContain(Demonstration, (await patient.ReadAsync("/")).Text);

        Rename(service);
        await editions.LoadAsync(CancellationToken.None);

        Assert.Contains(Demonstration, (await patient.ReadAsync("/")).Text);
    }

    [Fact]
    public async Task A_conversation_keeps_the_edition_it_began_with_and_an_earlier_one_can_be_published_again()
    {
        await using var service = await RunningService.StartAsync(ownRoot: true);
        var editions = service.Services.GetRequiredService<ServedEditions>();
        var first = editions.Current!.Edition.Id;
        using var early = service.NewPatient();
        var page = await early.BeginAsync();
        await TwoPeople.SignAsync(service, first, TwoPeople.Always);
        Assert.IsType<AddedDeed.Added>(await TwoPeople.PublishAsync(service, first));

        Rename(service);
        Assert.Empty(await editions.LoadAsync(CancellationToken.None));

        Assert.Equal(first, editions.Current.Edition.Id);
        var second = await TwoPeople.KeepFilesAsync(service);
        await TwoPeople.SignAsync(service, second, TwoPeople.Always);
        Assert.IsType<AddedDeed.Added>(await TwoPeople.PublishAsync(service, second));
        using var late = service.NewPatient();
        var begun = await late.BeginAsync();
        Assert.Contains(Second, begun.Text);
        Assert.DoesNotContain(Second, (await early.AnswerAsync(page)).Text);

        Assert.IsType<AddedDeed.Added>(await TwoPeople.PublishAsync(service, first));

        using var last = service.NewPatient();
        Assert.DoesNotContain(Second, (await last.BeginAsync()).Text);
        Assert.Contains(Second, (await late.AnswerAsync(begun)).Text);
    }

    [Fact]
    public async Task The_files_are_followed_again_on_request()
    {
        await using var service = await RunningService.StartAsync(ownRoot: true);
        using var patient = service.NewPatient();
        var editions = service.Services.GetRequiredService<ServedEditions>();
        var first = editions.Current!.Edition.Id;
        var follow = new Deed(DeedKind.FilesFollowed, first, 0, "Al", "author", "drafts");
        Assert.IsType<AddedDeed.Refused>(await TwoPeople.AddAsync(service, follow));
        await TwoPeople.SignAsync(service, first, TwoPeople.Always);
        await TwoPeople.PublishAsync(service, first);
        Rename(service);

        Assert.IsType<AddedDeed.Added>(await TwoPeople.AddAsync(service, follow));

        var page = await patient.ReadAsync("/");
        Assert.Contains(Second, page.Text);
        Assert.Contains(Demonstration, page.Text);
    }

    [Fact]
    public async Task The_service_itself_refuses_a_signature_that_does_not_hold()
    {
        await using var service = await RunningService.StartAsync(ownRoot: true);
        using var socket = service.Socket();
        var edition = service.Services.GetRequiredService<ServedEditions>().Current!.Edition.Id;
        var author = await TwoPeople.SignatureAsync(service, edition, DeedKind.SignedAsAuthor, "Al", TwoPeople.Always);

        Assert.Equal(403, await PostAsync(socket, author with { Edition = new string('0', 64) }));
        Assert.Equal(403, await PostAsync(socket, author with { Seen = author.Seen! with { Hash = "another" } }));
        Assert.Equal(403, await PostAsync(socket, author with { Seen = author.Seen! with { Confirmed = ["D-none"] } }));
        Assert.Equal(403, await PostAsync(socket, author with { ExpiresUnixMilliseconds = 0 }));
        Assert.Equal(403, await PostAsync(socket, author with { Reason = " " }));
        Assert.Equal(403, await PostAsync(socket, author with { Kind = DeedKind.SignedAsApprover }));
        Assert.Equal(403, await PostAsync(socket, new Deed(DeedKind.Published, edition, 0, "Al", "author", "now")));
        Assert.Equal(409, await PostAsync(socket, author, after: "another record"));
        Assert.Equal(400, (int)(await socket.PostAsJsonAsync("/control/ledger", new { after = "" })).StatusCode);
        Assert.Empty(service.Services.GetRequiredService<LedgerInForce>().Ledger.Deeds);
        Assert.IsType<AddedDeed.Added>(await TwoPeople.AddAsync(service, author));
        Assert.IsType<AddedDeed.Refused>(await TwoPeople.AddAsync(service, author with { Kind = DeedKind.SignedAsApprover, Name = " AL " }));
    }

    [Fact]
    public async Task An_edition_that_is_not_proven_cannot_be_signed_by_any_way()
    {
        await using var service = await RunningService.StartAsync(ownRoot: true);
        var rules = Path.Combine(service.Root, "dialogs", "ear", "5-rules-within-a-day.md");
        File.WriteAllText(rules, File.ReadAllText(rules).Replace("| RF-047.2 | yes | - | - | >= 39.0 |", "| RF-047.2 | yes | - | - | [39.0..41.5] |", StringComparison.Ordinal));
        await service.Services.GetRequiredService<ServedEditions>().LoadAsync(CancellationToken.None);
        var edition = await TwoPeople.KeepFilesAsync(service);

        var refused = Assert.IsType<AddedDeed.Refused>(
            await TwoPeople.AddAsync(service, await TwoPeople.SignatureAsync(service, edition, DeedKind.SignedAsAuthor, "Al", TwoPeople.Always)));

        Assert.Contains("not proven safe", refused.Why);
    }

    static async Task<int> PostAsync(HttpClient socket, Deed deed, string after = "") =>
        (int)(await socket.PostAsJsonAsync("/control/ledger", new { after, deed = JsonElement.Parse(Ledger.WriteDeed(deed)) })).StatusCode;

    static void Rename(RunningService service)
    {
        var words = Path.Combine(service.Root, "content", "en", "interface.md");
        File.WriteAllText(words, File.ReadAllText(words).Replace("| service name | EarHelp |", $"| service name | {Second} |", StringComparison.Ordinal));
    }
}
