using EarHelp.Conversation.Keeping;
using EarHelp.Conversation.Signing;
using EarHelp.Web.Editions;
using EarHelp.Web.Tests.Running;
using Microsoft.Extensions.DependencyInjection;
using Microsoft.Extensions.Time.Testing;

namespace EarHelp.Web.Tests.Serving;

public sealed class SignedEditionTests
{
    const string Demonstration = "Demonstration, not for real patients";

    static readonly DateTimeOffset Now = new(2026, 11, 20, 9, 30, 0, TimeSpan.Zero);

    [Fact]
    public async Task An_expired_signature_puts_the_word_back_and_publishes_nothing()
    {
        var clock = new FakeTimeProvider(Now);
        await using var service = await RunningService.StartAsync(configure: services => services.AddSingleton<TimeProvider>(clock));
        using var patient = service.NewPatient();
        var edition = service.Services.GetRequiredService<ServedEditions>().Current!.Edition.Id;
        await SignAsync(service, edition, Now.AddDays(30));
        Assert.DoesNotContain(Demonstration, (await patient.ReadAsync("/")).Text);
        Assert.DoesNotContain(Demonstration, await File.ReadAllTextAsync(Path.Combine(service.Data, "emergency.html")));

        clock.Advance(TimeSpan.FromDays(30));

        Assert.Contains(Demonstration, (await patient.ReadAsync("/")).Text);
        Assert.IsType<AddedDeed.NotSigned>(await AddAsync(service, new Deed(DeedKind.Published, edition, 0, "Al", "author", "again", null, null)));
    }

    [Fact]
    public async Task A_conversation_keeps_the_edition_it_began_with_and_edited_files_wait()
    {
        const string Second = "EarHelp Second";
        await using var service = await RunningService.StartAsync(ownRoot: true);
        var editions = service.Services.GetRequiredService<ServedEditions>();
        var first = editions.Current!.Edition.Id;
        using var early = service.NewPatient();
        var page = await early.BeginAsync();
        var words = Path.Combine(service.Root, "content", "en", "interface.md");
        await SignAsync(service, first, DateTimeOffset.MaxValue);
        Assert.IsType<AddedDeed.Added>(await AddAsync(service, new Deed(DeedKind.Published, first, 0, "Al", "author", "first", null, null)));

        File.WriteAllText(words, File.ReadAllText(words).Replace("| service name | EarHelp |", $"| service name | {Second} |", StringComparison.Ordinal));
        Assert.Empty(await editions.LoadAsync(CancellationToken.None));

        Assert.Equal(first, editions.Current.Edition.Id);
        var second = await KeepFilesAsync(service);
        await SignAsync(service, second, DateTimeOffset.MaxValue);
        Assert.IsType<AddedDeed.Added>(await AddAsync(service, new Deed(DeedKind.Published, second, 0, "Al", "author", "second", null, null)));
        using var late = service.NewPatient();
        Assert.Contains(Second, (await late.BeginAsync()).Text);
        Assert.DoesNotContain(Second, (await early.AnswerAsync(page)).Text);
    }

    static async Task<string> KeepFilesAsync(RunningService service)
    {
        var sources = Content.Sources.SourceFolder.Read(service.Root);
        var id = Content.EditionCompiler.Compile(sources, NeededByProgram.On(null)).Edition!.Id;
        await service.Services.GetRequiredService<IEditionArchive>().KeepAsync(id, Content.Sources.SourcePack.Pack(sources), CancellationToken.None);
        return id;
    }

    static async Task SignAsync(RunningService service, string edition, DateTimeOffset until)
    {
        var seen = new SeenComparison(null, "hash", "nothing to compare with", []);
        foreach (var (kind, name) in new[] { (DeedKind.SignedAsAuthor, "Al"), (DeedKind.SignedAsApprover, "Bo") })
            Assert.IsType<AddedDeed.Added>(await AddAsync(service, new Deed(kind, edition, 0, name, "surgeon", "read", seen, until.ToUnixTimeMilliseconds())));
    }

    static async Task<AddedDeed> AddAsync(RunningService service, Deed deed)
    {
        var ledger = await Ledger.ReadAsync(service.Services.GetRequiredService<IEditionLedger>(), CancellationToken.None);
        return await service.Services.GetRequiredService<ServedEditions>().AddAsync(ledger.Next(deed), CancellationToken.None);
    }
}
