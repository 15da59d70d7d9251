using System.Collections.Immutable;
using EarHelp.Architecture.Tests.Reading;

namespace EarHelp.Architecture.Tests.Words;

/// <summary>No decision lives in code: it names no fact, level, rule or advice item of the dialogs, but for those it must know.</summary>
public sealed class DecisionWordTests
{
    /// <summary>The written format says that the program knows these facts.</summary>
    static readonly string[] KnownToTheProgram = ["ears affected", "about whom", "someone else"];

    /// <summary>First headings of the tables whose first cells are names.</summary>
    static readonly string[] NamingTables = ["fact", "number", "level", "destination", "rule", "advice", "explanation", "screen"];

    [Fact]
    public void No_product_code_names_what_the_dialogs_decide()
    {
        var names = NamesInDialogs().Where(n => n.Contains(' ', StringComparison.Ordinal) || n.Contains('-', StringComparison.Ordinal)).Except(KnownToTheProgram).ToHashSet();

        var named = Repository.ProductCode.SelectMany(Literals.In).Where(t => names.Contains(t.Text)).Select(t => $"{t.Spot}: {t.Text}");

        Findings.None(named);
    }

    [Fact]
    public void The_dialogs_were_read()
    {
        Assert.Contains("fact", TablesInDialogs().Select(t => t[0].Split('|')[1].Trim()));
    }

    static IEnumerable<string> NamesInDialogs() =>
        TablesInDialogs().Where(t => NamingTables.Contains(t[0].Split('|')[1].Trim())).SelectMany(t => t.Skip(2)).Select(r => r.Split('|')[1].Trim());

    static IEnumerable<ImmutableArray<string>> TablesInDialogs()
    {
        foreach (var path in Repository.Files("dialogs", "*.md").Where(p => !p.EndsWith("README.md", StringComparison.Ordinal)))
        {
            var table = ImmutableArray.CreateBuilder<string>();
            foreach (var line in Repository.Read(path).Split('\n').Append(string.Empty))
            {
                if (line.StartsWith('|'))
                    table.Add(line);
                else if (table.Count > 0)
                    yield return table.DrainToImmutable();
            }
        }
    }
}
