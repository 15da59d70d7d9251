using System.Collections.Immutable;
using System.Globalization;
using System.Text;
using EarHelp.Content.Problems;
using EarHelp.Content.Sources;

namespace EarHelp.Content.Tests.Problems;

/// <summary>The examples of a code's page: files in fences that say "bad" or "good" and the path.</summary>
/// <remarks>An empty fence is a file that is not there. In a fence that says "escaped", \xE9 is a byte.</remarks>
sealed record PageExample(string ReportedAt, ImmutableArray<SourceFile> Bad, ImmutableArray<SourceFile> Good)
{
    public static PageExample Of(string code)
    {
        var lines = ProblemPages.Find(code)!.Split('\n');
        return new PageExample(
            lines.FirstOrDefault(l => l.StartsWith("reported at: ", StringComparison.Ordinal))?["reported at: ".Length..] ?? "",
            Read(lines, "bad"),
            Read(lines, "good"));
    }

    static ImmutableArray<SourceFile> Read(string[] lines, string kind)
    {
        var files = ImmutableArray.CreateBuilder<SourceFile>();
        for (var i = 0; i < lines.Length; i++)
        {
            if (!lines[i].StartsWith($"```{kind} ", StringComparison.Ordinal))
                continue;
            var head = lines[i].Split(' ');
            var inside = lines.Skip(i + 1).TakeWhile(l => l != "```").ToList();
            var text = string.Concat(inside.Select(l => l + "\n"));
            files.Add(new SourceFile(head[1], head.Length > 2 ? Unescaped(text) : Encoding.UTF8.GetBytes(text)));
        }

        return files.ToImmutable();
    }

    static byte[] Unescaped(string text)
    {
        var bytes = new List<byte>();
        for (var i = 0; i < text.Length; i++)
        {
            if (text[i] == '\\' && i + 3 < text.Length && text[i + 1] == 'x')
            {
                bytes.Add(byte.Parse(text.AsSpan(i + 2, 2), NumberStyles.AllowHexSpecifier, CultureInfo.InvariantCulture));
                i += 3;
            }
            else
            {
                bytes.AddRange(Encoding.UTF8.GetBytes(text[i].ToString()));
            }
        }

        return [.. bytes];
    }
}
