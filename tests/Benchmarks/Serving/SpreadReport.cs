using System.Collections.Immutable;
using System.Diagnostics;
using System.Text;
using Benchmarks.Figures;
using EarHelp.Content;
using EarHelp.Content.Sources;
using EarHelp.Conversation.Keeping;
using EarHelp.Conversation.Signing;
using EarHelp.Servers.Host;
using EarHelp.Storage;

namespace Benchmarks.Serving;

/// <summary>How soon an edition that is published elsewhere is served at two nodes on one database, whose message of it comes or is lost.</summary>
static class SpreadReport
{
    const int Rounds = 10;
    const string Words = "Only what you tell us is kept.";

    static readonly TimeSpan Patience = TimeSpan.FromMinutes(1);
    static readonly TimeSpan BetweenLooks = TimeSpan.FromMilliseconds(5);

    public static async Task AddAsync(FigureTable table)
    {
        await using var postgres = await PostgresServer.StartAsync();
        using var first = await ServerProcess.EarHelpAsync("--store", postgres.Address);
        using var second = await ServerProcess.EarHelpAsync("--store", postgres.Address);
        await using var third = StoreOpening.Open(postgres.Address, new StoreOptions());
        var (told, untold) = (new Samples(), new Samples());
        for (var round = 1; round <= Rounds; round++)
        {
            told.Add(await PublishAsync($"Told {round}.", null));
            untold.Add(await PublishAsync($"Untold {round}.", postgres.Address));
        }

        Add("the message of it comes", told);
        Add("the message of it is lost", untold);

        void Add(string how, Samples samples) => table.Add(
            $"an edition published at a third node until both serve it, {how}, {samples.Count} times",
            $"median {FigureTable.Of(samples.Median / 1000, "ms")}, worst {FigureTable.Of(samples.Worst / 1000, "ms")}",
            "within 1,000 ms",
            samples.Worst <= 1_000_000);

        // An edition that is signed is made ready at each node first, as it is when people publish.
        async Task<TimeSpan> PublishAsync(string words, string? pastTheMessage)
        {
            var sources = Reworded(words);
            var edition = EditionCompiler.Compile(sources, CompileOptions.Plain).Edition!.Id;
            await third.KeepAsync(edition, SourcePack.Pack(sources), CancellationToken.None);
            await third.AppendAsync(await NextAsync(DeedKind.SignedAsApprover), CancellationToken.None);
            await UntilAsync(() => Task.FromResult(Array.TrueForAll([first, second], n => n.Printed.Contains($"Edition {edition} was signed", StringComparison.Ordinal))));
            var record = await NextAsync(DeedKind.Published);
            using var client = new HttpClient();
            var from = Stopwatch.GetTimestamp();
            await (pastTheMessage is null ? third.AppendAsync(record, CancellationToken.None).AsTask() : PostgresServer.AddToLedgerAsync(pastTheMessage, record.Number, record.Body, record.PreviousHash, record.Hash));
            foreach (var node in (ServerProcess[])[first, second])
                await UntilAsync(async () => (await client.GetStringAsync(new Uri(node.Address, "privacy"))).Contains(words, StringComparison.Ordinal));
            return Stopwatch.GetElapsedTime(from);

            async Task<ChainedRecord> NextAsync(DeedKind kind) =>
                (await Ledger.ReadAsync(third, CancellationToken.None)).Next(new Deed(kind, edition, 0, "Al", "author", "released"));
        }
    }

    /// <summary>The shipped sources with other words on one page.</summary>
    static ImmutableArray<SourceFile> Reworded(string words)
    {
        var sources = SourceFolder.Read(Places.Root);
        var page = sources.Single(s => s.Path == "content/en/pages.md");
        var text = Encoding.UTF8.GetString(page.Bytes.Span).Replace(Words, words, StringComparison.Ordinal);
        return sources.Replace(page, new SourceFile(page.Path, Encoding.UTF8.GetBytes(text)));
    }

    static async Task UntilAsync(Func<Task<bool>> isSo)
    {
        for (var from = Stopwatch.GetTimestamp(); !await isSo(); await Task.Delay(BetweenLooks))
        {
            if (Stopwatch.GetElapsedTime(from) > Patience)
                throw new InvalidOperationException("The nodes did not come so far.");
        }
    }
}
