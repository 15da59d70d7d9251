using EarHelp.Conversation.Turns;
using EarHelp.Triage.Answers;
using EarHelp.Web.Markup;
using EarHelp.Web.Security;

namespace EarHelp.Web.Pages;

/// <summary>The hidden fields of a form: where it came from, which turn it is, and which question it answers.</summary>
static class FormFields
{
    internal const string Turn = "turn";
    internal const string Screen = "screen";
    internal const string Ear = "ear";
    internal const string Wording = "wording";
    internal const string AskedIn = "asked";

    internal static void WriteToken(HtmlWriter html, string token) => WriteHidden(html, FormToken.Field, token);

    /// <summary>A new turn's identifier: the same form sent twice is the same turn.</summary>
    internal static void WriteTurn(HtmlWriter html, string turn) => WriteHidden(html, Turn, turn);

    internal static void WriteQuestion(HtmlWriter html, QuestionName question)
    {
        WriteScreen(html, question.Screen, question.Ear);
        html.Markup("<input type=\"hidden\" name=\"wording\" value=\""u8).Number(question.Wording)
            .Markup("\"><input type=\"hidden\" name=\"asked\" value=\""u8).Number(question.AskedInTurn).Markup("\">"u8);
    }

    internal static void WriteScreen(HtmlWriter html, string screen, Ear? ear)
    {
        WriteHidden(html, Screen, screen);
        if (ear is not null)
            WriteHidden(html, Ear, EarName(ear.Value));
    }

    internal static string EarName(Ear ear) => ear switch
    {
        Triage.Answers.Ear.Left => "left",
        Triage.Answers.Ear.Right => "right",
        _ => "either",
    };

    internal static Ear? ReadEar(string? written) => written switch
    {
        "left" => Triage.Answers.Ear.Left,
        "right" => Triage.Answers.Ear.Right,
        "either" => Triage.Answers.Ear.Either,
        _ => null,
    };

    static void WriteHidden(HtmlWriter html, string name, string value) =>
        html.Markup("<input type=\"hidden\""u8).Attribute("name"u8, name).Attribute("value"u8, value).Markup(">"u8);
}
