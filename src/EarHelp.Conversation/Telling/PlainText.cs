using System.Collections.Immutable;
using System.Globalization;
using System.Text;
using EarHelp.Conversation.Replies;
using EarHelp.Triage.Asking;
using EarHelp.Triage.Texts;

namespace EarHelp.Conversation.Telling;

/// <summary>Renders a letter as plain text, for a terminal and for channels that know nothing else.</summary>
public static class PlainText
{
    public static string Of(ImmutableArray<LetterPart> parts, LetterWriter words)
    {
        ArgumentNullException.ThrowIfNull(words);
        var text = new StringBuilder();
        foreach (var part in parts)
        {
            switch (part)
            {
                case LetterPart.Passage passage:
                    Append(text, passage.Text);
                    break;
                case LetterPart.Emergency emergency:
                    Append(text, emergency.Text);
                    break;
                case LetterPart.Asked asked:
                    AppendQuestion(text, asked.Question, words);
                    break;
                case LetterPart.ReadBackShown readBack:
                    AppendReadBack(text, readBack);
                    break;
                case LetterPart.SharingOffered sharing:
                    Append(text, sharing.Text);
                    break;
                case LetterPart.TopicsOffered offered:
                    Append(text, offered.Text);
                    foreach (var topic in offered.Topics)
                        text.Append("  - ").Append(topic.Title).Append('\n');
                    text.Append('\n');
                    break;
                case LetterPart.OutcomeShown outcome:
                    foreach (var section in outcome.Sections)
                    {
                        text.Append(section.Heading).Append('\n');
                        Append(text, section.Text);
                    }

                    break;
                default:
                    throw new System.Diagnostics.UnreachableException();
            }
        }

        return text.ToString().TrimEnd() + "\n";
    }

    public static string Of(Prose prose)
    {
        var text = new StringBuilder();
        Append(text, prose);
        return text.ToString().TrimEnd();
    }

    /// <summary>The words of a text in one line.</summary>
    public static string OfLine(Prose prose) => OfLine(ProseOf.Inlines(prose));

    internal static string OfLine(ImmutableArray<Inline> inlines)
    {
        var text = new StringBuilder();
        foreach (var inline in inlines)
        {
            text.Append(inline switch
            {
                Inline.Run run => run.Text,
                Inline.Link link => link.Text,
                Inline.Either either => either.Self,
                Inline.Blank blank => "{" + blank.Name + "}",
                _ => throw new System.Diagnostics.UnreachableException(),
            });
        }

        return text.ToString();
    }

    static void AppendReadBack(StringBuilder text, LetterPart.ReadBackShown readBack)
    {
        text.Append(readBack.Text).Append("\n  1  ").Append(readBack.Yes).Append("\n  2  ").Append(readBack.No).Append('\n');
        for (var i = 0; i < readBack.Understood.Length; i++)
            text.Append(CultureInfo.InvariantCulture, $"  {i + 3}  {readBack.Understood[i].Wrong}\n");
        text.Append('\n').Append(readBack.AskedNext).Append(readBack.AskedNext is null ? string.Empty : "\n\n");
    }

    static void AppendQuestion(StringBuilder text, QuestionShown question, LetterWriter words)
    {
        if (question.Lead is not null)
            text.Append(question.Lead).Append('\n');
        Append(text, question.Ask);
        if (!question.Why.IsEmpty)
            text.Append(words.Text("why we ask")).Append(": ").Append(OfLine(question.Why)).Append("\n\n");
        Append(text, question.Note);
        var isChecklist = question.Question.Kind == QuestionKind.Checklist;
        for (var i = 0; i < question.Facts.Length; i++)
        {
            var fact = question.Facts[i];
            if (isChecklist)
                text.Append(CultureInfo.InvariantCulture, $"  {i + 1,2}  {OfLine(fact.Label)}\n");
            else
                AppendFact(text, fact);
        }

        if (isChecklist)
            text.Append(CultureInfo.InvariantCulture, $"  {0,2}  {question.None}\n\n").Append(words.Text("type several")).Append("\n\n");
    }

    /// <summary>Options are marked 1, 2, 3 where an answer is a word, and a, b, c where it could be a figure; "not sure" comes last.</summary>
    static void AppendFact(StringBuilder text, FactShown fact)
    {
        if (!fact.Label.IsEmpty)
            text.Append(OfLine(fact.Label)).Append('\n');
        var isFigure = fact.Asked.Input is not null;
        for (var i = 0; i < fact.Options.Length; i++)
            text.Append("  ").Append(Mark(i, isFigure)).Append("  ").Append(fact.Options[i].Label).Append('\n');
        if (fact.InputHint is not null)
            text.Append("  ").Append(fact.InputHint).Append('\n');
        if (fact.NotSure is not null)
            text.Append("  ").Append(Mark(fact.Options.Length, isFigure)).Append("  ").Append(fact.NotSure).Append('\n');
        text.Append('\n');
    }

    static string Mark(int place, bool isFigure) =>
        isFigure ? ((char)('a' + place)).ToString() : (place + 1).ToString(CultureInfo.InvariantCulture);

    static void Append(StringBuilder text, Prose prose)
    {
        if (prose.IsEmpty)
            return;
        foreach (var block in prose.Blocks)
        {
            switch (block)
            {
                case Block.Paragraph paragraph:
                    text.Append(OfLine(paragraph.Inlines)).Append("\n\n");
                    break;
                case Block.Heading heading:
                    text.Append(OfLine(heading.Inlines)).Append('\n');
                    break;
                case Block.Picture picture:
                    text.Append('[').Append(OfLine(picture.Words)).Append("]\n\n");
                    break;
                case Block.Items items:
                    for (var i = 0; i < items.Entries.Length; i++)
                    {
                        var mark = items.IsNumbered ? (i + 1).ToString(CultureInfo.InvariantCulture) + "." : "-";
                        text.Append("  ").Append(mark).Append(' ').Append(OfLine(items.Entries[i])).Append('\n');
                    }

                    text.Append('\n');
                    break;
                default:
                    throw new System.Diagnostics.UnreachableException();
            }
        }
    }
}
