using System.Collections.Immutable;
using System.Net.Http.Json;
using System.Text;
using System.Text.Json;
using EarHelp.Conversation.Keeping;

namespace EarHelp.Cli.Keeping;

/// <summary>The editions and the ledger of a running service, over its socket.</summary>
sealed class EditionsInService(RunningService service) : IEditionArchive, IEditionLedger
{
    public async ValueTask KeepAsync(string editionId, ReadOnlyMemory<byte> sources, CancellationToken cancellation)
    {
        using var content = new ReadOnlyMemoryContent(sources);
        Expect(200, await service.SendAsync(HttpMethod.Post, Address(editionId), content, cancellation).ConfigureAwait(false));
    }

    public async ValueTask<ReadOnlyMemory<byte>?> FindAsync(string editionId, CancellationToken cancellation)
    {
        var (status, bytes) = await service.SendAsync(HttpMethod.Get, Address(editionId), null, cancellation).ConfigureAwait(false);
        if (status == 404)
            return null;
        Expect(200, (status, bytes));
        return bytes;
    }

    public async ValueTask<bool> AppendAsync(LedgerRecord record, CancellationToken cancellation)
    {
        using var content = JsonContent.Create(record);
        await content.LoadIntoBufferAsync(cancellation).ConfigureAwait(false);
        var answer = await service.SendAsync(HttpMethod.Post, "control/ledger", content, cancellation).ConfigureAwait(false);
        if (answer.Status == 409)
            return false;
        if (answer.Status == 403)
            throw new WrongUseException("the service does not publish what is not signed at this moment.");
        if (answer.Status == 422)
            throw new WrongUseException($"this service cannot serve that edition.\n{Encoding.UTF8.GetString(answer.Bytes)}".TrimEnd());
        Expect(200, answer);
        return true;
    }

    public async ValueTask<ImmutableArray<LedgerRecord>> ReadAsync(CancellationToken cancellation)
    {
        var answer = await service.SendAsync(HttpMethod.Get, "control/ledger", null, cancellation).ConfigureAwait(false);
        Expect(200, answer);
        return [.. JsonSerializer.Deserialize<LedgerRecord[]>(answer.Bytes, JsonSerializerOptions.Web) ?? []];
    }

    static string Address(string editionId) => $"control/edition/{Uri.EscapeDataString(editionId)}";

    static void Expect(int status, (int Status, byte[] Bytes) answer)
    {
        if (answer.Status != status)
            throw new WrongUseException($"the service answered {answer.Status}.");
    }
}
