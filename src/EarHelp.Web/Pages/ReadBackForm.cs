using EarHelp.Conversation.Telling;
using EarHelp.Web.Markup;

namespace EarHelp.Web.Pages;

/// <summary>What was understood from a message: each part with a tick that may be taken away, a yes and a no.</summary>
sealed class ReadBackForm(HtmlWriter html, Words words, string token, string turn)
{
    /// <summary>The field that says whether it is right, and the one of the parts that are.</summary>
    internal const string Right = "right", Part = "part";

    internal void Write(LetterPart.ReadBackShown readBack)
    {
        html.Markup("<section class=\"ask\" id=\"now\" aria-labelledby=\"question\"><h2 id=\"question\" tabindex=\"-1\" data-focus>"u8)
            .Text(readBack.Text).Markup("</h2><form method=\"post\" action=\"/confirm\" data-part>"u8);
        FormFields.WriteToken(html, token);
        FormFields.WriteTurn(html, turn);
        FormFields.WriteQuestion(html, readBack.Name);
        html.Markup("<fieldset><legend class=\"hint\">"u8).Text(words["read back hint"]).Markup("</legend><ul class=\"choices\">"u8);
        for (var i = 0; i < readBack.Understood.Length; i++)
        {
            html.Markup("<li><label class=\"pick\"><input type=\"checkbox\" name=\"part\" value=\""u8).Number(i).Markup("\" checked><span>"u8)
                .Typed(readBack.Understood[i].Text).Markup("</span></label></li>"u8);
        }

        html.Markup("</ul></fieldset>"u8);
        if (readBack.AskedNext is { } next)
            html.Markup("<p class=\"hint\">"u8).Text(next).Markup("</p>"u8);
        html.Markup("<div class=\"row\"><button name=\"right\" value=\"yes\">"u8).Text(readBack.Yes)
            .Markup("</button><button class=\"quiet\" name=\"right\" value=\"no\">"u8).Text(readBack.No).Markup("</button></div></form>"u8);
        WriteOwnWords();
        html.Markup("</section>"u8);
    }

    void WriteOwnWords()
    {
        html.Markup("<form method=\"post\" action=\"/answer\" data-part novalidate>"u8);
        FormFields.WriteToken(html, token);
        FormFields.WriteTurn(html, turn);
        html.Markup("<div class=\"own\"><label for=\"own\">"u8).Text(words["or write"])
            .Markup("</label><textarea id=\"own\" name=\"text\" rows=\"2\" autocomplete=\"off\"></textarea></div><button class=\"quiet\">"u8)
            .Text(words["send"]).Markup("</button></form>"u8);
    }
}
