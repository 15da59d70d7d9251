using EarHelp.Conversation.Telling;
using EarHelp.Web.Markup;

namespace EarHelp.Web.Pages;

/// <summary>What was understood from a message, with a yes and a no.</summary>
sealed class ReadBackForm(HtmlWriter html, Words words, string token, string turn)
{
    internal void Write(LetterPart.ReadBackShown readBack)
    {
        html.Markup("<section class=\"ask\" id=\"now\" aria-labelledby=\"question\"><h2 id=\"question\" tabindex=\"-1\" data-focus>"u8)
            .Text(readBack.Text).Markup("</h2><div class=\"row\">"u8);
        WriteOne(readBack, isRight: true, readBack.Yes);
        WriteOne(readBack, isRight: false, readBack.No);
        html.Markup("</div><form method=\"post\" action=\"/answer\" data-part novalidate>"u8);
        FormFields.WriteToken(html, token);
        FormFields.WriteTurn(html, turn);
        html.Markup("<div class=\"own\"><label for=\"own\">"u8).Text(words["or write"])
            .Markup("</label><textarea id=\"own\" name=\"text\" rows=\"2\" autocomplete=\"off\"></textarea></div><button class=\"quiet\">"u8)
            .Text(words["send"]).Markup("</button></form></section>"u8);
    }

    void WriteOne(LetterPart.ReadBackShown readBack, bool isRight, string label)
    {
        html.Markup("<form method=\"post\" action=\"/confirm\" data-part>"u8);
        FormFields.WriteToken(html, token);
        FormFields.WriteTurn(html, turn);
        FormFields.WriteQuestion(html, readBack.Name);
        html.Markup(isRight ? "<button name=\"right\" value=\"yes\">"u8 : "<button class=\"quiet\" name=\"right\" value=\"no\">"u8)
            .Text(label).Markup("</button></form>"u8);
    }
}
