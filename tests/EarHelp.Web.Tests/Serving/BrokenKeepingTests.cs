using System.Collections.Immutable;
using EarHelp.Conversation.Keeping;
using EarHelp.Conversation.Signing;
using EarHelp.Storage;
using EarHelp.Web.Editions;
using EarHelp.Web.Tests.Running;
using Microsoft.Extensions.DependencyInjection;

namespace EarHelp.Web.Tests.Serving;

/// <summary>What the service does when what it kept about editions is broken.</summary>
public sealed class BrokenKeepingTests
{
    const string Demonstration = "Demonstration, not for real patients";

    [Fact]
    public async Task A_published_edition_that_is_gone_is_named_in_the_log_and_no_other_is_served_until_it_is_mended()
    {
        string? hidden = null;
        await using var service = await RunningService.StartAsync(ownRoot: true, configure: services => services.AddSingleton<IEditionArchive>(
            parts => new ArchiveWithAGap(parts.GetRequiredService<IStore>(), () => hidden)));
        var edition = service.Services.GetRequiredService<ServedEditions>().Current!.Edition.Id;
        await TwoPeople.SignAsync(service, edition, TwoPeople.Always);
        await TwoPeople.PublishAsync(service, edition);
        hidden = edition;
        var words = Path.Combine(service.Root, "content", "en", "interface.md");
        var before = File.ReadAllText(words);
        File.WriteAllText(words, before.Replace("| service name | EarHelp |", "| service name | EarHelp Second |", StringComparison.Ordinal));

        await service.StartAgainAsync();

        using var patient = service.NewPatient();
        var page = await patient.ReadAsync("/");
        Assert.Equal(503, (int)page.Status);
        Assert.Contains("999", page.Text);
        Assert.Contains($"Edition {edition} was published, and it is not in the archive", service.Log.Text);
        File.WriteAllText(words, before);
        await service.Services.GetRequiredService<ServedEditions>().LoadAsync(CancellationToken.None);
        Assert.Equal(200, (int)(await patient.ReadAsync("/")).Status);
    }

    [Fact]
    public async Task A_damaged_ledger_stops_no_start_and_is_never_added_to()
    {
        var isDamaged = false;
        await using var service = await RunningService.StartAsync(configure: services => services.AddSingleton<IEditionLedger>(
            parts => new DamagedLedger(parts.GetRequiredService<IStore>(), () => isDamaged)));
        var edition = service.Services.GetRequiredService<ServedEditions>().Current!.Edition.Id;
        await TwoPeople.SignAsync(service, edition, TwoPeople.Always);
        var author = await TwoPeople.SignatureAsync(service, edition, DeedKind.SignedAsAuthor, "Al", TwoPeople.Always);
        isDamaged = true;

        await service.StartAgainAsync();

        using var patient = service.NewPatient();
        var page = await patient.ReadAsync("/");
        Assert.Contains(Demonstration, page.Text);
        Assert.Contains("999", page.Text);
        Assert.Contains("Record 2 is damaged. Nothing is added to it. Restore the last verified backup", service.Log.Text);
        Assert.Contains("Record 2 is damaged", Assert.IsType<AddedDeed.Refused>(await TwoPeople.AddAsync(service, author)).Why);
        using var socket = service.Socket();
        Assert.Equal(423, (int)(await socket.GetAsync(new Uri("/control/ledger", UriKind.Relative))).StatusCode);
    }

    sealed class ArchiveWithAGap(IEditionArchive kept, Func<string?> hidden) : IEditionArchive
    {
        public ValueTask KeepAsync(string editionId, ReadOnlyMemory<byte> sources, CancellationToken cancellation) => kept.KeepAsync(editionId, sources, cancellation);

        public ValueTask<ReadOnlyMemory<byte>?> FindAsync(string editionId, CancellationToken cancellation) =>
            editionId == hidden() ? ValueTask.FromResult<ReadOnlyMemory<byte>?>(null) : kept.FindAsync(editionId, cancellation);
    }

    sealed class DamagedLedger(IEditionLedger kept, Func<bool> isDamaged) : IEditionLedger
    {
        public ValueTask<bool> AppendAsync(ChainedRecord record, CancellationToken cancellation) =>
            isDamaged() ? throw new InvalidOperationException("A damaged ledger was added to.") : kept.AppendAsync(record, cancellation);

        public ValueTask<ImmutableArray<ChainedRecord>> ReadAsync(CancellationToken cancellation) =>
            isDamaged() ? throw new LedgerDamagedException("Record 2 is damaged.") : kept.ReadAsync(cancellation);
    }
}
