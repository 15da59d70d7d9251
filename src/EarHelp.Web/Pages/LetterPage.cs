using System.Buffers;
using System.Collections.Immutable;
using EarHelp.Clinic.Callers;
using EarHelp.Conversation.Replies;
using EarHelp.Conversation.Telling;
using EarHelp.Conversation.Turns;
using EarHelp.Web.AfterVisit;
using EarHelp.Web.Desk;
using EarHelp.Web.Markup;
using NodaTime;

namespace EarHelp.Web.Pages;

/// <summary>The conversation as a letter: all that was asked and answered, then the question of now.</summary>
/// <param name="open">The question of now, or null after the outcome.</param>
/// <param name="token">The form token.</param>
/// <param name="nextTurn">Identifier of the turn that answers this page.</param>
/// <param name="filled">Set if the question was answered and the answer has to be mended.</param>
sealed class LetterPage(Words words, Reply? open, string token, string nextTurn, Instant now, FilledForm? filled = null)
{
    /// <param name="caller">For whom the desk holds the conversation in this browser, or null.</param>
    /// <param name="isAfterVisit">True: there is a plan for the time after a visit.</param>
    internal ReadOnlyMemory<byte> Write(ImmutableArray<TurnTold> history, Caller? caller = null, bool isAfterVisit = false)
    {
        var turns = SinceLastStart(history);
        return PageFrame.Write(words, new PageState(Title, token, HasQuestion: true), html =>
        {
            html.Markup("<h1>"u8).Text(words["conversation"]).Markup("</h1>"u8);
            CallerMark.Write(html, words, caller, isNow: false);
            AftercareLink.Write(html, words, isAfterVisit);
            WriteAlarms(html, words, turns, now);
            WriteStatus(html, words);
            html.Markup("<div class=\"log\" id=\"log\" role=\"log\""u8).Attribute("aria-label"u8, words["conversation"]).Markup(">"u8);
            var entry = new TurnEntry(html, words, token, now);
            foreach (var turn in turns)
            {
                html.Markup("<div>"u8);
                entry.Write(turn, nextTurn);
                html.Markup("</div>"u8);
            }

            html.Markup("<div>"u8);
            WriteOpen(html);
            html.Markup("</div></div>"u8);
        });
    }

    /// <summary>Only what new turns add, for a page that already shows the rest; without any, the question of now alone.</summary>
    internal ReadOnlyMemory<byte> WritePart(ImmutableArray<TurnTold> turns)
    {
        var output = new ArrayBufferWriter<byte>(4096);
        var html = new HtmlWriter(output);
        html.Markup("<div"u8).Attribute("data-title"u8, PageFrame.TitleOf(words, Title)).Attribute("data-turn"u8, nextTurn).Markup(">"u8);
        var entry = new TurnEntry(html, words, token, now);
        foreach (var turn in turns)
            entry.Write(turn, nextTurn);
        WriteOpen(html);
        html.Markup("</div>"u8);
        return output.WrittenMemory;
    }

    /// <summary>Names the question of now, so that a tab or a history tells where one is; with an error in front.</summary>
    string Title
    {
        get
        {
            var title = open is Reply.Ask ask
                ? words.Letter.BriefOfScreen(ask.Question.Name.Screen, ask.Question.Name.Ear)
                : words["conversation"];
            return filled is null || filled.Faults.IsEmpty ? title : words.Letter.Text("error title", ("title", title));
        }
    }

    void WriteOpen(HtmlWriter html)
    {
        foreach (var part in open is null ? [] : words.Letter.Write(open, now))
        {
            if (part is LetterPart.Asked asked)
                new QuestionForm(html, words, token, nextTurn, filled).Write(asked.Question);
            else if (part is LetterPart.ReadBackShown readBack)
                new ReadBackForm(html, words, token, nextTurn).Write(readBack);
        }

        if (open is null)
        {
            html.Markup("<p class=\"ask\" id=\"now\" tabindex=\"-1\"><a class=\"button\" href=\"/plan\">"u8).Text(words["go to plan"])
                .Markup("</a></p>"u8);
        }
    }

    /// <summary>The last emergency text stands here as well, first in reading order: it stays, and a new one is spoken at once.</summary>
    internal static void WriteAlarms(HtmlWriter html, Words words, ImmutableArray<TurnTold> turns, Instant now)
    {
        html.Markup("<div class=\"alarms\" id=\"alarms\" role=\"alert\">"u8);
        var last = turns.SelectMany(t => t.Replies).OfType<Reply.Alarm>().LastOrDefault();
        foreach (var part in last is null ? [] : words.Letter.Write(last, now).OfType<LetterPart.Emergency>())
        {
            html.Markup("<div class=\"alarm\">"u8);
            ProseWriter.Write(html, part.Text);
            html.Markup("</div>"u8);
        }

        html.Markup("</div>"u8);
    }

    internal static void WriteStatus(HtmlWriter html, Words words) =>
        html.Markup("<p class=\"status\" id=\"status\" role=\"status\" aria-atomic=\"true\""u8)
            .Attribute("data-sending"u8, words["sending"]).Attribute("data-saved"u8, words["saved"])
            .Attribute("data-copied"u8, words["link copied"]).Markup("></p>"u8);

    /// <summary>What was said before the person started over is put away.</summary>
    static ImmutableArray<TurnTold> SinceLastStart(ImmutableArray<TurnTold> history)
    {
        for (var i = history.Length - 1; i > 0; i--)
        {
            if (history[i].Turn.Content is TurnContent.StartOver)
                return history[i..];
        }

        return history;
    }
}
