using System.Collections.Immutable;
using EarHelp.Conversation.Replies;
using EarHelp.Conversation.Telling;
using EarHelp.Web.Markup;
using NodaTime;

namespace EarHelp.Web.Pages;

/// <summary>The first page: what this is and is not, and the short form at once.</summary>
static class StartPage
{
    internal static ReadOnlyMemory<byte> Write(
        Words words, ImmutableArray<Reply> opening, string token, string turn, Instant now, FilledForm? filled = null)
    {
        var title = filled is null || filled.Faults.IsEmpty
            ? words["service at clinic"]
            : words.Letter.Text("error title", ("title", words["service at clinic"]));
        return PageFrame.Write(words, new PageState(title, Token: null, HasQuestion: true), html =>
        {
            html.Markup("<h1>"u8).Text(words["service at clinic"]).Markup("</h1>"u8);
            foreach (var part in opening.SelectMany(reply => words.Letter.Write(reply, now)))
            {
                switch (part)
                {
                    case LetterPart.Passage passage:
                        ProseWriter.Write(html, passage.Text);
                        EarDrawing.Write(html, words);
                        break;
                    case LetterPart.Asked asked:
                        new QuestionForm(html, words, token, turn, filled).Write(asked.Question);
                        break;
                    default:
                        break;
                }
            }

            if (words.Edition.Clinic.RequestKeptDays > 0)
                html.Markup("<p class=\"hint\"><a href=\"/receipt\">"u8).Text(words["receipt link"]).Markup("</a></p>"u8);
        });
    }
}
