using System.Collections.Immutable;
using System.Globalization;
using System.Net;
using System.Text;
using EarHelp.Proof.Comparing;
using EarHelp.Proof.Patients;

namespace EarHelp.Proof.Telling;

/// <summary>A comparison as one page that needs nothing besides itself, for those who approve it.</summary>
public static class ComparisonHtml
{
    const string Style = """
        body{font:16px/1.5 system-ui,sans-serif;max-width:62rem;margin:2rem auto;padding:0 1rem;color:#1b1b1b;background:#fff}
        h1{font-size:1.5rem}h2{font-size:1.2rem;margin-top:2rem;border-top:1px solid #bbb;padding-top:1rem}
        table{border-collapse:collapse;width:100%}th,td{text-align:left;vertical-align:top;padding:.4rem .6rem;border-bottom:1px solid #ddd}
        code{font-size:.95em}del{background:#fbe3e0}ins{background:#e0f2e4}svg{max-width:44rem;width:100%;font:14px system-ui,sans-serif}
        path{fill:none;stroke:#9aa5ad;opacity:.6}path.down{stroke:#a3341c}path.up{stroke:#1f5f8b}.head{font-weight:600}
        ul{margin:0;padding-left:1.1rem}
        """;

    public static string Write(EditionComparison comparison, ImmutableArray<ChangedExample> examples = default)
    {
        ArgumentNullException.ThrowIfNull(comparison);
        var html = new StringBuilder();
        var title = $"{ComparisonText.Short(comparison.Before)} to {ComparisonText.Short(comparison.After)}";
        html.Append(CultureInfo.InvariantCulture, $"<!doctype html>\n<html lang=\"en\"><head><meta charset=\"utf-8\"><meta name=\"viewport\" content=\"width=device-width, initial-scale=1\"><title>{Text(title)}</title><style>{Style}</style></head><body><h1>What changes, {Text(title)}</h1><p>{Text(ChangeWords.Summary(comparison))}</p>");
        AddFacts(html, "Only the old edition asks", comparison.OnlyBefore);
        AddFacts(html, "Only the new edition asks", comparison.OnlyAfter);
        if (!comparison.Flow.IsEmpty)
            html.Append("<h2>From level to level</h2>").Append(FlowPicture.Write(comparison.Flow));
        foreach (var group in comparison.Changes.GroupBy(c => c.Kind))
            Add(html, group);
        if (!comparison.Edits.IsEmpty)
            html.Append("<h2>Rows that are not as they were</h2><ul>").AppendJoin("", comparison.Edits.Select(e => $"<li>{Text(e.ToString())}</li>")).Append("</ul>");
        if (!examples.IsDefaultOrEmpty)
            html.Append("<h2>Example patients who are told something else</h2><ul>").AppendJoin("", examples.Select(e => $"<li>{Text(e.ToString())}</li>")).Append("</ul>");
        if (!comparison.Texts.IsEmpty)
            html.Append("<h2>Texts</h2><table><tr><th>text</th><th>what changed</th></tr>").AppendJoin("", comparison.Texts.Select(Row)).Append("</table>");
        return html.Append("</body></html>\n").ToString();
    }

    static void Add(StringBuilder html, IGrouping<ChangeKind, Change> group)
    {
        html.Append(CultureInfo.InvariantCulture, $"<h2>{Text(ChangeWords.Heading(group.Key))}</h2><table><tr><th>change</th><th>patients</th><th>example, before and after</th><th>by</th></tr>");
        foreach (var change in group)
        {
            var id = change.Id is null ? "" : $"<br><code id=\"{change.Id}\">{change.Id}</code>";
            html.Append(CultureInfo.InvariantCulture, $"<tr><td>{Text(change.Title)}{id}</td><td title=\"{change.Patients.ToString(CultureInfo.InvariantCulture)}\">{Text(Amount.InWords(change.Patients))}</td><td>{Text(change.Shown.InWords)}<br>before: {Text(change.ToldBefore)}<br>after: {Text(change.ToldAfter)}</td><td><ul>");
            html.AppendJoin("", change.Causes.Select(c => $"<li>{Text(c.ToString())}</li>")).Append("</ul></td></tr>");
        }

        html.Append("</table>");
    }

    static string Row(TextChange text) => $"<tr><td>{Text($"{text.Language}, {text.Name}")}</td><td>{string.Join(' ', text.Pieces.Select(Told))}</td></tr>";

    static string Told(TextPiece piece) => piece.Fate switch
    {
        TextFate.Stayed => Text(piece.Words),
        TextFate.Went => $"<del>{Text(piece.Words)}</del>",
        TextFate.Came => $"<ins>{Text(piece.Words)}</ins>",
        _ => throw new System.Diagnostics.UnreachableException(),
    };

    static void AddFacts(StringBuilder html, string heading, IReadOnlyCollection<string> facts)
    {
        if (facts.Count > 0)
            html.Append(CultureInfo.InvariantCulture, $"<p>{Text(heading)}: {Text(string.Join(", ", facts))}.</p>");
    }

    static string Text(string text) => WebUtility.HtmlEncode(text);
}
