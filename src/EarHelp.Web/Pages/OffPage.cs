using System.Collections.Immutable;
using EarHelp.Conversation.Replies;
using EarHelp.Conversation.Stepping;
using EarHelp.Conversation.Telling;
using EarHelp.Conversation.Withdrawing;
using EarHelp.Web.Editions;
using EarHelp.Web.Markup;
using EarHelp.Web.Turns;
using NodaTime;

namespace EarHelp.Web.Pages;

/// <summary>The page in the place of what is withdrawn, or was corrected: why, how to reach a person, and the way on.</summary>
static class OffPage
{
    /// <summary>The page's key, or null: nothing stands in the conversation's way. An emergency plan is always shown.</summary>
    internal static string? KeyFor(OpenConversation conversation, ServedEditions editions)
    {
        var told = conversation.Outcome;
        if (told is { Rank: 0 })
            return null;
        if (editions.Withdrawn.AllTriage)
            return Withholding.AllKey;
        if (conversation.State.IsWithheld || (told is not null && editions.Withdrawn.Withholds(told)))
            return Withholding.OutcomeKey;
        return told is not null && editions.IsSuperseded(conversation.Edition.Edition.Id) ? Withholding.CorrectedKey : null;
    }

    /// <summary>For somebody who has no conversation.</summary>
    internal static ReadOnlyMemory<byte> Write(Words words) =>
        PageFrame.Write(words, new PageState(words[HeadingOf(Withholding.AllKey)], null, HasQuestion: false), html => WriteText(html, words, Withholding.AllKey));

    /// <param name="served">The words of the edition that is served, for a conversation whose own edition lacks these.</param>
    internal static ReadOnlyMemory<byte> Write(
        OpenConversation conversation, string key, Words served, ImmutableArray<TurnTold> history, string token, string nextTurn, Instant now)
    {
        var words = conversation.Words.Letter.Page(key).IsEmpty ? served : conversation.Words;
        return PageFrame.Write(words, new PageState(words[HeadingOf(key)], token, HasQuestion: false), html =>
        {
            LetterPage.WriteAlarms(html, conversation.Words, history, now);
            WriteText(html, words, key);
            html.Markup("<form method=\"post\" action=\"/go-on\">"u8);
            FormFields.WriteToken(html, token);
            FormFields.WriteTurn(html, nextTurn);
            html.Markup("<p><button>"u8).Text(words[key == Withholding.CorrectedKey ? "continue" : "look again"]).Markup("</button></p></form>"u8);
        });
    }

    static void WriteText(HtmlWriter html, Words words, string key)
    {
        html.Element("h1"u8, words[HeadingOf(key)]);
        ProseWriter.Write(html, words.Letter.Page(key));
    }

    static string HeadingOf(string key) => key == Withholding.CorrectedKey ? "corrected heading" : "withdrawn heading";
}
