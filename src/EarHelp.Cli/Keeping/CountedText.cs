using EarHelp.Storage.Moving;

namespace EarHelp.Cli.Keeping;

/// <summary>What was counted, one line a part.</summary>
static class CountedText
{
    public static async Task WriteAsync(IEnumerable<CountedPart> parts, Terminal terminal)
    {
        foreach (var part in parts)
            await terminal.Out.WriteLineAsync($"{part.Name,-10} {part.Count,12}  {part.Hash}").ConfigureAwait(false);
    }
}
