using EarHelp.Content;
using EarHelp.Content.Sources;
using EarHelp.Conversation.Keeping;
using EarHelp.Conversation.Signing;
using EarHelp.Triage.Editions;
using EarHelp.Web.Editions;
using EarHelp.Web.Signing;
using Microsoft.Extensions.DependencyInjection;

namespace EarHelp.Web.Tests.Running;

/// <summary>An author and an approver at a running service, who sign what they see.</summary>
static class TwoPeople
{
    public static readonly DateTimeOffset Always = DateTimeOffset.MaxValue;

    /// <summary>Keeps the files as they are on the disk.</summary>
    public static async Task<string> KeepFilesAsync(RunningService service)
    {
        var sources = SourceFolder.Read(service.Root);
        var id = EditionCompiler.Compile(sources, NeededByProgram.On(null)).Edition!.Id;
        await service.Services.GetRequiredService<IEditionArchive>().KeepAsync(id, SourcePack.Pack(sources), CancellationToken.None);
        return id;
    }

    public static async Task SignAsync(RunningService service, string edition, DateTimeOffset until)
    {
        foreach (var (kind, name) in new[] { (DeedKind.SignedAsAuthor, "Al"), (DeedKind.SignedAsApprover, "Bo") })
            Assert.IsType<AddedDeed.Added>(await AddAsync(service, await SignatureAsync(service, edition, kind, name, until)));
    }

    /// <summary>A signature under the comparison as it comes out, with every decrease confirmed.</summary>
    public static async Task<Deed> SignatureAsync(RunningService service, string edition, DeedKind kind, string name, DateTimeOffset until)
    {
        var ledger = service.Services.GetRequiredService<LedgerInForce>().Ledger;
        var with = ComparedWith.For(edition, service.Services.GetRequiredService<ServedEditions>().Current?.Edition.Id, ledger);
        var other = with.Edition is null ? null : await EditionAsync(service, with.Edition);
        var seen = SignedComparison.Of(with, other, await EditionAsync(service, edition));
        return new Deed(kind, edition, 0, name, "surgeon", "read", seen.SeenBy(seen.Decreases), until.ToUnixTimeMilliseconds());
    }

    public static Task<AddedDeed> PublishAsync(RunningService service, string edition) =>
        AddAsync(service, new Deed(DeedKind.Published, edition, 0, "Al", "author", "released"));

    public static Task<AddedDeed> AddAsync(RunningService service, Deed deed) =>
        service.Services.GetRequiredService<EditionDeeds>().AddAsync(deed, service.Services.GetRequiredService<LedgerInForce>().Ledger.LastHash, CancellationToken.None);

    static async Task<Edition> EditionAsync(RunningService service, string id)
    {
        var pack = await service.Services.GetRequiredService<IEditionArchive>().FindAsync(id, CancellationToken.None);
        return EditionCompiler.Compile(SourcePack.Unpack(pack!.Value), CompileOptions.Plain).Edition!;
    }
}
