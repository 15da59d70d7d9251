using EarHelp.Conversation.Replies;
using EarHelp.Conversation.Telling;
using EarHelp.Conversation.Turns;
using EarHelp.Web.Markup;
using NodaTime;

namespace EarHelp.Web.Pages;

/// <summary>One turn as an entry of the letter: what was answered, in pen, and what was replied. The question of now stands after all entries.</summary>
sealed class TurnEntry(HtmlWriter html, Words words, string token, Instant now)
{
    /// <summary>Texts that stand on a page of their own: the first one, and the one that shows a link.</summary>
    static readonly string[] SaidElsewhere = ["greeting", "return link"];

    /// <param name="nextTurn">Identifier of the turn that would change this answer.</param>
    internal void Write(TurnTold turn, string nextTurn)
    {
        WriteSaid(turn, nextTurn);
        foreach (var reply in turn.Replies)
            Write(reply, nextTurn);
    }

    void WriteSaid(TurnTold turn, string nextTurn)
    {
        switch (turn.Turn.Content)
        {
            case TurnContent.Chosen chosen when turn.Turn.Answers is { } question:
                WriteAnswers(chosen, question, nextTurn);
                break;
            case TurnContent.Typed typed:
                html.Markup("<p class=\"said\"><span class=\"heard\">"u8).Text(words["said by you"]).Markup(": </span><span class=\"pen\">"u8)
                    .Typed(typed.Text).Markup("</span></p>"u8);
                break;
            default:
                break;
        }
    }

    void WriteAnswers(TurnContent.Chosen chosen, QuestionName question, string nextTurn)
    {
        var lines = AnswerLines.Of(words.Letter, chosen, question);
        if (lines.IsEmpty)
            return;
        html.Markup("<div class=\"answered\"><dl>"u8);
        foreach (var (asked, answer) in lines)
            html.Markup("<dt>"u8).Text(asked).Markup("</dt><dd>"u8).Typed(answer).Markup("</dd>"u8);
        html.Markup("</dl><form method=\"post\" action=\"/change\" data-part>"u8);
        FormFields.WriteToken(html, token);
        FormFields.WriteTurn(html, nextTurn);
        FormFields.WriteScreen(html, question.Screen, question.Ear);
        html.Markup("<button class=\"link\""u8)
            .Attribute("aria-label"u8, words.Letter.Text("change answer", ("question", words.Letter.BriefOfScreen(question.Screen, question.Ear))))
            .Markup(">"u8).Text(words["change"]).Markup("</button></form></div>"u8);
    }

    void WriteSharing(LetterPart.SharingOffered sharing, string nextTurn)
    {
        html.Markup("<div class=\"note\">"u8);
        ProseWriter.Write(html, sharing.Text);
        html.Markup("<form method=\"post\" action=\"/share\" data-part>"u8);
        FormFields.WriteToken(html, token);
        FormFields.WriteTurn(html, nextTurn);
        html.Markup("<button class=\"link\" name=\"share\""u8).Attribute("value"u8, sharing.Allows ? "yes" : "no").Markup(">"u8)
            .Text(sharing.Label).Markup("</button></form></div>"u8);
    }

    /// <summary>Answers that may be near, each a button.</summary>
    void WriteTopics(LetterPart.TopicsOffered offered, string nextTurn)
    {
        html.Markup("<div class=\"note\">"u8);
        ProseWriter.Write(html, offered.Text);
        html.Markup("<form method=\"post\" action=\"/ask\">"u8);
        FormFields.WriteToken(html, token);
        FormFields.WriteTurn(html, nextTurn);
        html.Markup("<ul class=\"topics\">"u8);
        foreach (var topic in offered.Topics)
        {
            html.Markup("<li><button class=\"link\" name=\"topic\""u8).Attribute("value"u8, topic.Id).Markup(">"u8)
                .Text(topic.Title).Markup("</button></li>"u8);
        }

        html.Markup("</ul></form></div>"u8);
    }

    /// <summary>Questions stand elsewhere and a plan has its page. Neither is worded here: it may be of an edition that was corrected since.</summary>
    void Write(Reply reply, string nextTurn)
    {
        switch (reply)
        {
            case Reply.Ask or Reply.Confirm:
                break;
            case Reply.Outcome outcome:
                html.Markup("<p class=\"note\">"u8)
                    .Text(words.Letter.Text("plan made", ("moment", words.Letter.Moment(outcome.Told.DecidedAt)))).Markup("</p>"u8);
                break;
            default:
                foreach (var part in words.Letter.Write(reply, now))
                    Write(part, nextTurn);
                break;
        }
    }

    void Write(LetterPart part, string nextTurn)
    {
        switch (part)
        {
            case LetterPart.SharingOffered sharing:
                WriteSharing(sharing, nextTurn);
                break;
            case LetterPart.TopicsOffered offered:
                WriteTopics(offered, nextTurn);
                break;
            case LetterPart.Passage passage when !SaidElsewhere.Contains(passage.Key):
                html.Markup("<div class=\"note\">"u8);
                ProseWriter.Write(html, passage.Text);
                html.Markup("</div>"u8);
                break;
            case LetterPart.Emergency emergency:
                html.Markup("<div class=\"alarm\">"u8);
                ProseWriter.Write(html, emergency.Text);
                html.Markup("</div>"u8);
                break;
            default:
                break;
        }
    }
}
