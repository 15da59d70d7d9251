using System.Collections.Immutable;
using System.Text;
using EarHelp.Content.Problems;
using Markdig.Syntax.Inlines;
using Written = EarHelp.Triage.Texts.Inline;

namespace EarHelp.Content.Reading;

/// <summary>Turns the inlines of Markdig into pieces of a text, and the braces in them into blanks.</summary>
sealed class InlineReader(SourceText source, int shift, BlankNames blanks, ProblemList problems)
{
    static readonly string[] Schemes = ["https:", "tel:", "mailto:", "sms:"];

    readonly ImmutableArray<Written>.Builder _pieces = ImmutableArray.CreateBuilder<Written>();
    readonly StringBuilder _run = new();
    int _runStart = -1;
    bool _isStrong, _isEmphasised;

    public ImmutableArray<Written> Read(ContainerInline? container)
    {
        if (container is not null)
            Walk(container, false, false);
        Flush();
        return _pieces.ToImmutable();
    }

    void Walk(ContainerInline container, bool isStrong, bool isEmphasised)
    {
        foreach (var inline in container)
        {
            switch (inline)
            {
                case LiteralInline literal:
                    Append(literal.Content.ToString(), literal.Span.Start, isStrong, isEmphasised);
                    break;
                case HtmlEntityInline entity:
                    Append(entity.Transcoded.ToString(), entity.Span.Start, isStrong, isEmphasised);
                    break;
                case LineBreakInline lineBreak:
                    Append(" ", lineBreak.Span.Start, isStrong, isEmphasised);
                    break;
                case CodeInline code:
                    Append(code.Content, code.Span.Start, isStrong, isEmphasised);
                    break;
                case EmphasisInline emphasis:
                    Walk(emphasis, isStrong || emphasis.DelimiterCount >= 2, isEmphasised || emphasis.DelimiterCount == 1);
                    break;
                case AutolinkInline automatic:
                    AddLink(automatic.Url, automatic.IsEmail ? "mailto:" + automatic.Url : automatic.Url, automatic.Span.Start);
                    break;
                case LinkInline { IsImage: true } picture:
                    problems.Add(Codes.UnsupportedMarkdown, At(picture.Span.Start), "A picture stands inside a line.", "Put it into a paragraph of its own.");
                    break;
                case LinkInline link:
                    AddLink(PlainText(link), link.Url ?? "", link.Span.Start);
                    break;
                case DelimiterInline delimiter:
                    Append(delimiter.ToLiteral(), delimiter.Span.Start, isStrong, isEmphasised);
                    Walk(delimiter, isStrong, isEmphasised);
                    break;
                case ContainerInline other:
                    Walk(other, isStrong, isEmphasised);
                    break;
            }
        }
    }

    void Append(string text, int at, bool isStrong, bool isEmphasised)
    {
        if (_run.Length > 0 && (isStrong != _isStrong || isEmphasised != _isEmphasised))
            Flush();
        if (_run.Length == 0)
            (_runStart, _isStrong, _isEmphasised) = (at, isStrong, isEmphasised);
        _run.Append(text);
    }

    void Flush()
    {
        if (_run.Length == 0)
            return;
        new RunReader(_run.ToString(), offset => At(_runStart + offset), _isStrong, _isEmphasised, blanks, problems).Read(_pieces);
        _run.Clear();
    }

    void AddLink(string text, string address, int at)
    {
        Flush();
        address = Uri.UnescapeDataString(address).Trim();
        if (!Array.Exists(Schemes, s => address.StartsWith(s, StringComparison.OrdinalIgnoreCase)))
            problems.Add(Codes.ForbiddenLink, At(at), $"The link goes to \"{address}\".", "Links begin with https:, tel:, mailto: or sms:.");
        _pieces.Add(new Written.Link(text, address));
    }

    static string PlainText(ContainerInline container)
    {
        var text = new StringBuilder();
        foreach (var literal in Markdig.Syntax.MarkdownObjectExtensions.Descendants<LiteralInline>(container))
            text.Append(literal.Content.AsSpan());
        return text.ToString();
    }

    Triage.Texts.SourceSpot At(int offset) => source.SpotAt(shift + offset);
}
