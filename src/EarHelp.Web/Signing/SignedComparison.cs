using System.Collections.Immutable;
using System.Globalization;
using System.Security.Cryptography;
using System.Text;
using EarHelp.Conversation.Signing;
using EarHelp.Proof.Comparing;
using EarHelp.Proof.Telling;
using EarHelp.Triage.Editions;

namespace EarHelp.Web.Signing;

/// <summary>What a person who signs is shown: for whom the result changes.</summary>
/// <param name="Text">For the person.</param>
/// <param name="Decreases">Identifiers of the decreases of urgency, each of which has to be confirmed.</param>
/// <param name="Bound">The bound that was met if the comparison could not finish; else null.</param>
public sealed record SignedComparison(string? Against, string Hash, string Summary, string Text, ImmutableArray<string> Decreases, string? Bound)
{
    /// <param name="with">Why it is compared with that one.</param>
    /// <param name="other">The edition that <paramref name="with"/> names.</param>
    public static SignedComparison Of(ComparedWith with, Edition? other, Edition edition)
    {
        ArgumentNullException.ThrowIfNull(with);
        ArgumentNullException.ThrowIfNull(edition);
        if (other is null)
            return new SignedComparison(null, HashOf("nothing to compare with"), with.Why, with.Why + "\n", [], null);
        var comparison = EditionComparison.Of(other, edition);
        var summary = string.Create(
            CultureInfo.InvariantCulture,
            $"{comparison.Changed} of {comparison.Patients} patients, {comparison.Changes.Length} kinds of change, {comparison.Decreases.Length} decreases of urgency, {comparison.Texts.Length} changed texts");
        return new SignedComparison(
            other.Id, HashOf(ComparisonJson.Write(comparison)), summary, $"{with.Why}\n{ComparisonText.Write(comparison)}", [.. comparison.Decreases.Select(c => c.Id!)], comparison.Bound);
    }

    public SeenComparison SeenBy(IEnumerable<string> confirmed) => new(Against, Hash, Summary, [.. confirmed.Order(StringComparer.Ordinal)]);

    /// <summary>Null if all decreases, and nothing else, were named; else what is wrong.</summary>
    public string? FaultOf(IReadOnlyCollection<string> confirmed)
    {
        string[] missing = [.. Decreases.Except(confirmed, StringComparer.Ordinal)];
        string[] unknown = [.. confirmed.Except(Decreases, StringComparer.Ordinal)];
        if (missing.Length > 0)
            return $"these decreases of urgency are not confirmed; read each above, and name it if it is meant: {string.Join(' ', missing.Select(m => "--confirm " + m))}";
        return unknown.Length > 0 ? $"this comparison has no decrease of urgency {string.Join(", ", unknown)}; it may be of another one." : null;
    }

    static string HashOf(string text) => Convert.ToHexStringLower(SHA256.HashData(Encoding.UTF8.GetBytes(text)));
}
