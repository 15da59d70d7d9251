using System.Collections.Immutable;
using System.Net.Http.Json;
using System.Text;
using System.Text.Json;
using EarHelp.Conversation.Keeping;
using EarHelp.Conversation.Searching;
using EarHelp.Conversation.Signing;

namespace EarHelp.Cli.Keeping;

/// <summary>The editions and the ledger of a running service, over its socket.</summary>
sealed class EditionsInService(RunningService service) : IEditionArchive
{
    public async ValueTask KeepAsync(string editionId, ReadOnlyMemory<byte> sources, CancellationToken cancellation)
    {
        using var content = new ReadOnlyMemoryContent(sources);
        Expect(await service.SendAsync(HttpMethod.Post, Address(editionId), content, cancellation).ConfigureAwait(false));
    }

    public async ValueTask<ReadOnlyMemory<byte>?> FindAsync(string editionId, CancellationToken cancellation)
    {
        var (status, bytes) = await service.SendAsync(HttpMethod.Get, Address(editionId), null, cancellation).ConfigureAwait(false);
        if (status == 404)
            return null;
        Expect((status, bytes));
        return bytes;
    }

    /// <summary>The edition that is served now, or null.</summary>
    public async Task<string?> ServedAsync(CancellationToken cancellation)
    {
        var answer = await service.SendAsync(HttpMethod.Get, "control/edition", null, cancellation).ConfigureAwait(false);
        Expect(answer);
        using var read = JsonDocument.Parse(answer.Bytes);
        return read.RootElement.GetProperty("edition").GetString();
    }

    /// <returns>Null if it is kept and carried out; else why the service refuses it.</returns>
    /// <exception cref="WrongUseException">Another one came first.</exception>
    public async Task<string?> AddAsync(Ledger known, Deed deed, CancellationToken cancellation)
    {
        using var content = JsonContent.Create(new { after = known.LastHash, deed = JsonElement.Parse(Ledger.WriteDeed(deed)) });
        await content.LoadIntoBufferAsync(cancellation).ConfigureAwait(false);
        var answer = await service.SendAsync(HttpMethod.Post, "control/ledger", content, cancellation).ConfigureAwait(false);
        switch (answer.Status)
        {
            case 403:
                return Encoding.UTF8.GetString(answer.Bytes);
            case 409:
                throw new WrongUseException(KeptEditions.SomebodyWasQuicker);
            case 422:
                return $"this service cannot serve that edition.\n{Encoding.UTF8.GetString(answer.Bytes)}".TrimEnd();
            default:
                Expect(answer);
                return null;
        }
    }

    public async ValueTask<ImmutableArray<ChainedRecord>> ReadAsync(CancellationToken cancellation)
    {
        var answer = await service.SendAsync(HttpMethod.Get, "control/ledger", null, cancellation).ConfigureAwait(false);
        Expect(answer);
        return [.. JsonSerializer.Deserialize<ChainedRecord[]>(answer.Bytes, JsonSerializerOptions.Web) ?? []];
    }

    public async Task<Recall> AffectedAsync(string edition, string rule, CancellationToken cancellation)
    {
        var address = $"control/affected/{Uri.EscapeDataString(edition)}/{Uri.EscapeDataString(rule)}";
        var answer = await service.SendAsync(HttpMethod.Get, address, null, cancellation).ConfigureAwait(false);
        Expect(answer);
        return JsonSerializer.Deserialize<Recall>(answer.Bytes, JsonSerializerOptions.Web)!;
    }

    static string Address(string editionId) => $"control/edition/{Uri.EscapeDataString(editionId)}";

    static void Expect((int Status, byte[] Bytes) answer)
    {
        if (answer.Status is 422 or 423)
            throw new WrongUseException(Encoding.UTF8.GetString(answer.Bytes));
        if (answer.Status != 200)
            throw new WrongUseException($"the service answered {answer.Status}.");
    }
}
