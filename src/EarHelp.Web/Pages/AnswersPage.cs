using EarHelp.Conversation.Replies;
using EarHelp.Conversation.Telling;
using EarHelp.Triage.Editions;
using EarHelp.Web.Markup;
using NodaTime;

namespace EarHelp.Web.Pages;

/// <summary>What people ask: the last answer of this conversation, a field for a question, and all topics, each a button.</summary>
static class AnswersPage
{
    internal const string Topic = "topic", Question = "question";

    /// <summary>Longest question; a longer text belongs into the letter.</summary>
    const int LongestQuestion = 300;

    /// <param name="last">The answer that was told last, or null.</param>
    internal static ReadOnlyMemory<byte> Write(Words words, Reply.Answered? last, string token, string nextTurn, Instant now) =>
        PageFrame.Write(words, new PageState(words["answers heading"], token, HasQuestion: false), html =>
        {
            html.Element("h1"u8, words["answers heading"]);
            foreach (var passage in last is null ? [] : words.Letter.Write(last, now).OfType<LetterPart.Passage>())
            {
                html.Markup("<section class=\"note answer\" id=\"answer\" tabindex=\"-1\">"u8);
                ProseWriter.Write(html, passage.Text, HeadingTag.Second);
                html.Markup("</section>"u8);
            }

            html.Markup("<p><a class=\"button quiet\" href=\"/letter#now\">"u8).Text(words["answers back"]).Markup("</a></p><p>"u8)
                .Text(words["answers hint"]).Markup("</p><form method=\"post\" action=\"/ask\">"u8);
            FormFields.WriteToken(html, token);
            FormFields.WriteTurn(html, nextTurn);
            html.Markup("<p class=\"own\"><label for=\"asking\">"u8).Text(words["answers ask"])
                .Markup("</label><input id=\"asking\" type=\"text\" autocomplete=\"off\" name=\"question\" maxlength=\""u8).Number(LongestQuestion)
                .Markup("\"></p><p><button>"u8).Text(words["send"]).Markup("</button></p>"u8);
            WriteTopics(html, words.Edition.Wordings[words.Language]);
            html.Markup("</form>"u8);
        });

    /// <summary>Under the headings in the authors' order; below each, in alphabetical order.</summary>
    static void WriteTopics(HtmlWriter html, Wording wording)
    {
        html.Markup("<ul class=\"topics\">"u8);
        foreach (var (number, group) in wording.AnswerGroups.Index())
            html.Markup("<li><a href=\"#group-"u8).Number(number + 1).Markup("\">"u8).Text(group).Markup("</a></li>"u8);
        html.Markup("</ul>"u8);
        foreach (var (number, group) in wording.AnswerGroups.Index())
        {
            html.Markup("<h2 id=\"group-"u8).Number(number + 1).Markup("\">"u8).Text(group).Markup("</h2><ul class=\"topics\">"u8);
            foreach (var answer in wording.Answers.Values.Where(a => a.Group == group).OrderBy(a => a.Title, StringComparer.InvariantCulture))
            {
                html.Markup("<li><button class=\"link\" name=\"topic\""u8).Attribute("value"u8, answer.Id).Markup(">"u8)
                    .Text(answer.Title).Markup("</button></li>"u8);
            }

            html.Markup("</ul>"u8);
        }
    }
}
