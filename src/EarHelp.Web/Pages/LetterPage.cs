using System.Collections.Immutable;
using System.Buffers;
using EarHelp.Conversation.Replies;
using EarHelp.Conversation.Telling;
using EarHelp.Web.Markup;
using NodaTime;

namespace EarHelp.Web.Pages;

/// <summary>The conversation as a letter: all that was asked and answered, then the question of now.</summary>
static class LetterPage
{
    /// <param name="nextTurn">Identifier of the turn that answers this page.</param>
    /// <param name="notice">Key of a text that says what has just happened, or null.</param>
    internal static ReadOnlyMemory<byte> Write(
        Words words, ImmutableArray<TurnTold> turns, string token, string nextTurn, Instant now, FilledForm? filled = null, string? notice = null)
    {
        var title = TitleOf(words, turns[^1], now, filled);
        return PageFrame.Write(words, new PageState(title, token, HasQuestion: true), html =>
        {
            html.Markup("<h1>"u8).Text(words["conversation"]).Markup("</h1>"u8);
            WriteAlarms(html, words, turns, now);
            WriteStatus(html, words, notice);
            html.Markup("<div class=\"log\" id=\"log\" role=\"log\""u8).Attribute("aria-label"u8, words["conversation"]).Markup(">"u8);
            var entry = new TurnEntry(html, words, token, now);
            for (var i = 0; i < turns.Length; i++)
            {
                var isLast = i == turns.Length - 1;
                html.Markup("<div>"u8);
                entry.Write(turns[i], nextTurn, isLast, isLast ? filled : null);
                html.Markup("</div>"u8);
            }

            html.Markup("</div>"u8);
        });
    }

    /// <summary>Only what a turn adds, for a page that already shows the rest.</summary>
    /// <param name="turns">The new turns, in order.</param>
    internal static ReadOnlyMemory<byte> WritePart(
        Words words, ImmutableArray<TurnTold> turns, string token, string nextTurn, Instant now, FilledForm? filled = null)
    {
        var output = new ArrayBufferWriter<byte>(4096);
        var html = new HtmlWriter(output);
        html.Markup("<div"u8).Attribute("data-title"u8, PageFrame.TitleOf(words, TitleOf(words, turns[^1], now, filled)))
            .Attribute("data-turn"u8, nextTurn).Markup(">"u8);
        var entry = new TurnEntry(html, words, token, now);
        for (var i = 0; i < turns.Length; i++)
        {
            var turn = filled is null ? turns[i] : turns[i] with { Turn = turns[i].Turn with { Content = new Conversation.Turns.TurnContent.SomethingChanged() } };
            entry.Write(turn, nextTurn, i == turns.Length - 1, filled);
        }

        html.Markup("</div>"u8);
        return output.WrittenMemory;
    }

    /// <summary>Names the question of now, so that a tab or a history tells where one is; with an error in front.</summary>
    static string TitleOf(Words words, TurnTold last, Instant now, FilledForm? filled)
    {
        var question = last.Replies.OfType<Reply.Ask>().LastOrDefault();
        var title = question is null
            ? words["conversation"]
            : words.Letter.BriefOfScreen(question.Question.Name.Screen, question.Question.Name.Ear);
        return filled is null || filled.Faults.IsEmpty ? title : words.Letter.Text("error title", ("title", title));
    }

    /// <summary>Emergency texts stand here as well, first in reading order: they stay, and a new one is spoken at once.</summary>
    static void WriteAlarms(HtmlWriter html, Words words, ImmutableArray<TurnTold> turns, Instant now)
    {
        html.Markup("<div class=\"alarms\" id=\"alarms\" role=\"alert\">"u8);
        var last = turns.SelectMany(t => t.Replies).OfType<Reply.Alarm>().LastOrDefault();
        if (last is not null)
        {
            foreach (var part in words.Letter.Write(last, now).OfType<LetterPart.Emergency>())
            {
                html.Markup("<div class=\"alarm\">"u8);
                ProseWriter.Write(html, part.Text);
                html.Markup("</div>"u8);
            }
        }

        html.Markup("</div>"u8);
    }

    internal static void WriteStatus(HtmlWriter html, Words words, string? notice) =>
        html.Markup("<p class=\"status\" id=\"status\" role=\"status\" aria-atomic=\"true\""u8)
            .Attribute("data-sending"u8, words["sending"]).Attribute("data-saved"u8, words["saved"])
            .Attribute("data-copied"u8, words["link copied"]).Markup(">"u8)
            .Text(notice is null ? string.Empty : words[notice]).Markup("</p>"u8);
}
