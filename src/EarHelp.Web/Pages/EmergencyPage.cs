using System.Buffers;
using System.Collections.Immutable;
using EarHelp.Triage.Texts;
using EarHelp.Web.Markup;

namespace EarHelp.Web.Pages;

/// <summary>The page for when nothing else works: one file without style, script or address, which opens from a disk too.</summary>
static class EmergencyPage
{
    internal const string FileName = "emergency.html";

    const string PageKey = "emergency";

    /// <param name="alarms">The emergency texts to which this very message led: they stand first.</param>
    /// <param name="isNotSaved">True if a message was lost.</param>
    internal static ReadOnlyMemory<byte> Write(Words words, ImmutableArray<Prose> alarms = default, bool isNotSaved = false)
    {
        var output = new ArrayBufferWriter<byte>(4096);
        var html = new HtmlWriter(output);
        html.Markup("<!DOCTYPE html><html"u8).Attribute("lang"u8, words.Language)
            .Markup("><head><meta charset=\"utf-8\"><title>"u8).Text(words["channel emergency"]).Markup(" \u2013 "u8).Text(words["service name"])
            .Markup("</title><meta name=\"viewport\" content=\"width=device-width, initial-scale=1\"><link rel=\"icon\" href=\"data:,\"></head><body><main><h1>"u8)
            .Text(words["channel emergency"]).Markup("</h1>"u8);
        foreach (var alarm in alarms.IsDefault ? [] : alarms)
            ProseWriter.Write(html, alarm, HeadingTag.Second);
        if (isNotSaved)
        {
            html.Markup("<p><strong>"u8).Text(words["not saved"]).Markup("</strong></p>"u8);
            ProseWriter.Write(html, words.Letter.Page("not saved"));
        }

        ProseWriter.Write(html, words.Letter.Page(PageKey));
        EmergencyNumbersTable.Write(html, words);
        if (words.IsInvented)
            html.Markup("<p>"u8).Text(words["invented"]).Markup(". "u8).Text(words["invented why"]).Markup("</p>"u8);
        if (!words.IsSigned)
            html.Markup("<p>"u8).Text(words["demonstration"]).Markup(". "u8).Text(words["demonstration why"]).Markup("</p>"u8);
        html.Markup("</main></body></html>\n"u8);
        return output.WrittenMemory;
    }
}
