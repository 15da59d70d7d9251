using System.Collections.Immutable;
using System.Text.RegularExpressions;

namespace EarHelp.Conformance.Guidelines;

/// <summary>One value of a source, and where the service states it.</summary>
/// <param name="StandsIn">Path from the repository's root, or "-": not stated.</param>
/// <param name="Words">What stands there, or why it is not stated.</param>
/// <param name="BoundBy">Name of a test class, or "-".</param>
public sealed partial record CheckValue(string Id, string Says, string Source, string HowSure, string StandsIn, string Words, string BoundBy)
{
    public bool IsStated => StandsIn != "-";

    /// <summary>The rows of <c>check-values.md</c>, by id.</summary>
    public static ImmutableSortedDictionary<string, CheckValue> All { get; } = Rows(File.ReadAllText(Repository.PathOf("tests/EarHelp.Conformance/Guidelines/check-values.md")))
        .Where(c => c is [['C', 'V', '-', ..], ..])
        .Select(c => new CheckValue(c[0], c[1], c[2], c[3], c[4], c[5], c[6]))
        .ToImmutableSortedDictionary(v => v.Id, v => v);

    /// <summary>The cells of all table rows of a page; <c>\|</c> is a bar.</summary>
    public static IEnumerable<string[]> Rows(string page) => page.Split('\n').Where(l => l.StartsWith("| ", StringComparison.Ordinal))
        .Select(l => Bar().Split(l.Trim())[1..^1].Select(c => c.Trim().Replace("\\|", "|", StringComparison.Ordinal)).ToArray());

    [GeneratedRegex(@"(?<!\\)\|")]
    private static partial Regex Bar();
}
