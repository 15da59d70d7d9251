using System.IO.Compression;
using System.Text.RegularExpressions;
using Benchmarks.Figures;

namespace Benchmarks.Serving;

/// <summary>What the first page costs a person on a poor connection, and how long the service takes to show it.</summary>
static partial class PageReport
{
    const int Starts = 5;

    public static async Task AddFirstPageAsync(FigureTable table)
    {
        using var server = await ServerProcess.EarHelpAsync();
        using var client = new HttpClient(new SocketsHttpHandler { UseCookies = false });
        client.DefaultRequestHeaders.Add("Accept-Encoding", "br, gzip");
        var page = await client.GetByteArrayAsync(server.Address);
        using var response = await client.GetAsync(server.Address);
        var text = await TextOfAsync(response);
        table.Add("first page: /", FigureTable.Of(page.Length, "bytes"), "");
        var bytes = (long)page.Length;
        var parts = Linked().Matches(text).Select(m => m.Groups[1].Value).Distinct().ToList();
        foreach (var part in parts)
        {
            var size = (await client.GetByteArrayAsync(new Uri(server.Address, part))).Length;
            bytes += size;
            table.Add($"first page: {part}", FigureTable.Of(size, "bytes"), "");
        }

        table.Add("first page, everything as it was sent", FigureTable.Of(bytes, "bytes"), "at most 20,480 bytes", bytes <= 20_480);
        table.Add("first page, requests", FigureTable.Of(parts.Count + 1, "requests"), "at most 3", parts.Count + 1 <= 3);
        var usable = await SlowLink.MillisecondsUntilUsableAsync(server.Address);
        table.Add($"first page in Chromium over {SlowLink.Words}, until its first question can be answered", FigureTable.Of(usable, "ms"), "under 2,000 ms", usable < 2000);
    }

    /// <param name="published">A folder into which the service was published, or null; the two take turns.</param>
    public static async Task TimeStartsAsync(string? published)
    {
        var folders = published is null ? [AppContext.BaseDirectory] : new[] { AppContext.BaseDirectory, Path.GetFullPath(published) };
        var starts = folders.ToDictionary(f => f, _ => (Clock: new Samples(), Processor: new Samples()));
        var memory = 0.0;
        for (var i = 0; i < Starts; i++)
        {
            foreach (var folder in folders)
            {
                using var server = await ServerProcess.EarHelpInAsync(folder);
                starts[folder].Clock.Add(server.Started);
                starts[folder].Processor.Add(server.ProcessorTime);
                memory = Math.Max(memory, server.MegabytesInUse);
            }
        }

        var table = new FigureTable("start");
        foreach (var folder in folders)
        {
            var (clock, processor) = starts[folder];
            var what = folder == folders[0] ? "as built" : "as published";
            table.Add($"{what}: process start to first served page, median of {Starts}", FigureTable.Of(clock.Median / 1000, "ms"), "at most 800 ms");
            table.Add($"{what}: the slowest", FigureTable.Of(clock.Worst / 1000, "ms"), "");
            table.Add($"{what}: processor time of it, median", FigureTable.Of(processor.Median / 1000, "ms"), "");
        }

        table.Add("resident memory after the first page", FigureTable.Of(memory, "MB"), "");
        table.Print(Console.Out);
    }

    static async Task<string> TextOfAsync(HttpResponseMessage response)
    {
        await using var body = await response.Content.ReadAsStreamAsync();
        await using Stream plain = response.Content.Headers.ContentEncoding.FirstOrDefault() switch
        {
            "br" => new BrotliStream(body, CompressionMode.Decompress),
            "gzip" => new GZipStream(body, CompressionMode.Decompress),
            _ => body,
        };
        using var reader = new StreamReader(plain);
        return await reader.ReadToEndAsync();
    }

    [GeneratedRegex("""<(?:link rel="stylesheet"|script defer|img)[^>]*(?:href|src)="([^"]+)""")]
    private static partial Regex Linked();
}
