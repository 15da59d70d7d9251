using EarHelp.Clinic.Requests;
using EarHelp.Conversation.Replies;
using EarHelp.Conversation.Stepping;
using EarHelp.Conversation.Telling;
using EarHelp.Web.Markup;
using EarHelp.Web.Pages;
using NodaTime;

namespace EarHelp.Web.Visits;

/// <summary>The pages around a request's form, with one decision each.</summary>
static class RequestPages
{
    /// <summary>Everything once more before it is sent; nothing is kept yet.</summary>
    internal static ReadOnlyMemory<byte> WriteReview(Words words, ContactDetails contact, string token, string turn) =>
        PageFrame.Write(words, new PageState(words["visit review heading"], token, HasQuestion: false), html =>
        {
            html.Element("h1"u8, words["visit review heading"]).Element("p"u8, words["visit review hint"]);
            ContactList.Write(html, words, contact);
            html.Markup("<form method=\"post\" action=\"/visit/send\"><div class=\"row\">"u8);
            FormFields.WriteToken(html, token);
            FormFields.WriteTurn(html, turn);
            foreach (var (field, value) in RequestFields.Of(contact))
                html.Markup("<input type=\"hidden\""u8).Attribute("name"u8, field).Attribute("value"u8, value).Markup(">"u8);
            html.Markup("<button>"u8).Text(words["visit send"]).Markup("</button><button class=\"quiet\" formaction=\"/visit/correct\">"u8)
                .Text(words["visit correct"]).Markup("</button></div></form>"u8);
        });

    /// <param name="told">The plan as it was told last, or null.</param>
    /// <param name="code">In groups; null: it was shown in another browser.</param>
    /// <param name="address">Where the code is used.</param>
    internal static ReadOnlyMemory<byte> WriteRequest(
        Words words, ServedEdition edition, VisitRequest request, ContactDetails contact, OutcomeTold? told, string? code, string address, string token, string turn, Instant now) =>
        PageFrame.Write(words, new PageState(words["visit sent heading"], token, HasQuestion: false), html =>
        {
            html.Element("h1"u8, words["visit sent heading"]);
            html.Element("p"u8, words.Letter.Text("visit sent at", ("moment", words.Letter.Moment(request.SentAgainAt ?? request.MadeAt))));
            var urgency = request.UrgencyAfter(told is null ? [] : [told]);
            var limit = urgency.SeenBy;
            ClosedNow.WriteNotice(html, words, edition, now);
            ClinicAnswer.Write(html, words, request, told, now);
            html.Markup("<p><strong>"u8).Text(Limit(words, limit, now)).Markup("</strong></p>"u8);
            new TimeInRequest(html, words, request, limit, token, now).Write(turn);
            if (!request.IsAnswered(urgency, now))
                WriteIfNobodyAnswers(html, words, ClinicAnswer.In(request, told), now);
            html.Markup("<section><h2>"u8).Text(words["visit code"]).Markup("</h2>"u8);
            if (code is not null)
            {
                html.Markup("<p id=\"link\" class=\"pen\">"u8).Text(code).Markup("</p><p>"u8).Text(words["visit code hint"]).Markup(" "u8)
                    .Text(words.Letter.Text("visit code where", ("address", address))).Markup("</p>"u8);
            }
            else
            {
                html.Element("p"u8, words["visit code before"]);
            }

            html.Markup("</section><section><h2>"u8).Text(words["visit kept"]).Markup("</h2>"u8);
            ContactList.Write(html, words, contact);
            html.Markup("<div class=\"row\"><a class=\"button quiet\" href=\"/visit/change\">"u8).Text(words["visit change"])
                .Markup("</a><a class=\"button quiet\" href=\"/visit/withdraw\">"u8).Text(words["visit withdraw"]).Markup("</a></div></section>"u8);
            WriteSomethingChanged(html, words, token, turn);
        });

    internal static ReadOnlyMemory<byte> WriteWithdraw(Words words, string token, string turn) => WriteSure(words, "withdraw", token, turn);

    internal static ReadOnlyMemory<byte> WriteCancel(Words words, string token, string turn) => WriteSure(words, "cancel", token, turn);

    /// <param name="mayAskAgain">False: the clinic could not see the person in time any more.</param>
    internal static ReadOnlyMemory<byte> WriteWithdrawn(Words words, bool mayAskAgain, string token) =>
        PageFrame.Write(words, new PageState(words["visit withdrawn heading"], token, HasQuestion: false), html =>
        {
            html.Element("h1"u8, words["visit withdrawn heading"]).Element("p"u8, words["visit withdrawn"]);
            html.Markup("<div class=\"row\"><a class=\"button\" href=\"/plan\">"u8).Text(words["visit to plan"]).Markup("</a>"u8);
            if (mayAskAgain)
                html.Markup("<a class=\"button quiet\" href=\"/visit/change\">"u8).Text(words["visit ask again"]).Markup("</a>"u8);
            html.Markup("</div>"u8);
        });

    /// <param name="isWrong">True: a code was sent that opens nothing.</param>
    internal static ReadOnlyMemory<byte> WriteReceipt(Words words, bool isWrong, string token)
    {
        var heading = words["receipt heading"];
        var title = isWrong ? words.Letter.Text("error title", ("title", heading)) : heading;
        return PageFrame.Write(words, new PageState(title, null, HasQuestion: false), html =>
        {
            html.Element("h1"u8, heading);
            html.Markup("<form method=\"post\" action=\"/receipt\">"u8);
            FormFields.WriteToken(html, token);
            html.Markup("<div class=\"own\"><label for=\"code\">"u8).Text(words["receipt code"]).Markup("</label><p class=\"hint\" id=\"code-hint\">"u8)
                .Text(words["receipt hint"]).Markup("</p>"u8);
            if (isWrong)
                html.Markup("<p class=\"fault\" id=\"fault-code\" role=\"alert\">"u8).Text(words["receipt wrong"]).Markup("</p>"u8);
            html.Markup("<input type=\"text\" id=\"code\" name=\"code\" autocomplete=\"off\" autocapitalize=\"characters\" spellcheck=\"false\" maxlength=\"80\""u8)
                .Markup(isWrong ? " aria-invalid=\"true\" aria-describedby=\"fault-code code-hint\">"u8 : " aria-describedby=\"code-hint\">"u8)
                .Markup("</div><button>"u8).Text(words["receipt open"]).Markup("</button></form>"u8);
        });
    }

    static string Limit(Words words, Instant? seenBy, Instant now)
    {
        if (seenBy is not { } limit)
            return words["visit no limit"];
        var moment = words.Letter.Moment(limit);
        return limit < now ? words.Letter.Text("overdue", ("seen by", moment)) : words.Letter.Text("visit seen by", ("moment", moment));
    }

    /// <summary>By when somebody should have answered, and where to go if not: so that safety never waits for a message.</summary>
    internal static void WriteIfNobodyAnswers(HtmlWriter html, Words words, OutcomeTold? told, Instant now)
    {
        foreach (var shown in told is null ? [] : words.Letter.Write(new Reply.Outcome(told), now).OfType<LetterPart.OutcomeShown>())
        {
            // The second speaks of the places of the first.
            foreach (var section in shown.Sections.Where(s => s.Kind is OutcomeSectionKind.Where or OutcomeSectionKind.IfNobodyAnswered))
            {
                html.Markup("<section><h2>"u8).Text(section.Heading).Markup("</h2>"u8);
                ProseWriter.Write(html, section.Text);
                html.Markup("</section>"u8);
            }
        }
    }

    static void WriteSomethingChanged(HtmlWriter html, Words words, string token, string turn)
    {
        html.Markup("<div class=\"tools\"><h2>"u8).Text(words["plan changed heading"]).Markup("</h2><p>"u8).Text(words["something has changed hint"])
            .Markup("</p><form method=\"post\" action=\"/changed\">"u8);
        FormFields.WriteToken(html, token);
        FormFields.WriteTurn(html, turn);
        html.Markup("<p><button>"u8).Text(words["something has changed"]).Markup("</button></p></form><p><a class=\"button quiet\" href=\"/plan\">"u8)
            .Text(words["visit to plan"]).Markup("</a></p></div>"u8);
    }

    /// <summary>Asks whether it is meant, before something is given up.</summary>
    /// <param name="deed">Its name in the address of the form and in the keys of the words.</param>
    static ReadOnlyMemory<byte> WriteSure(Words words, string deed, string token, string turn)
    {
        var heading = words[$"visit {deed} heading"];
        return PageFrame.Write(words, new PageState(heading, token, HasQuestion: false), html =>
        {
            html.Element("h1"u8, heading).Element("p"u8, words[$"visit {deed} hint"]);
            html.Markup("<form method=\"post\" action=\"/visit/"u8).Text(deed).Markup("\"><div class=\"row\">"u8);
            FormFields.WriteToken(html, token);
            FormFields.WriteTurn(html, turn);
            html.Markup("<button>"u8).Text(words[$"visit {deed} yes"]).Markup("</button><a class=\"button quiet\" href=\"/visit\">"u8)
                .Text(words[$"visit {deed} no"]).Markup("</a></div></form>"u8);
        });
    }
}
