using System.Collections.Immutable;
using EarHelp.Clinic.Desk;
using EarHelp.Conversation.Replies;
using EarHelp.Conversation.Telling;
using EarHelp.Web.AfterVisit;
using EarHelp.Web.Markup;
using EarHelp.Web.Pages;
using EarHelp.Web.Staff;
using EarHelp.Web.Visits;
using NodaTime;

namespace EarHelp.Web.Desk;

/// <summary>One request on one page: what is dangerous first, then all that a clinician needs, then what can be done.</summary>
sealed class HandoverPage(HtmlWriter html, SignedIn reader, OpenedRequest opened, Instant now)
{
    Words Words => reader.Words;

    internal static ReadOnlyMemory<byte> Write(SignedIn reader, OpenedRequest opened, string? fault, IFormCollection? sent, string form, Instant now)
    {
        var name = QueuePage.NameOf(reader.Words, opened.Kept);
        return StaffFrame.Write(reader, fault is null ? name : reader.Words.Letter.Text("error title", ("title", name)), html =>
        {
            html.Element("h1"u8, name);
            StaffForm.WriteFault(html, reader.Words, fault);
            var page = new HandoverPage(html, reader, opened, now);
            page.WriteHandover();
            new HandoverForms(html, reader, opened, fault is null ? null : sent, form, now).Write();
        });
    }

    void WriteHandover()
    {
        html.Markup("<p>"u8);
        QueuePage.WriteUrgency(html, Words, opened.Request, now);
        html.Markup("</p>"u8);
        WriteSamePerson();
        var handover = opened.Handover;
        WriteAnswers("desk danger", handover.DangerSigns, "desk danger none");
        WriteVisits();
        WriteAnswers("desk dates", handover.Dates, null);
        WriteOwnWords(handover.OwnWords);
        WriteAnswers("desk treating", handover.MattersForTreating, "desk treating none");
        WriteAnswers("desk not known", handover.NotKnown, null);
        WriteAnswers("desk others", handover.Others, null);
        WritePlainNos(handover.PlainNos);
        WriteTold();
        if (opened.Kept.Contact is { } contact)
        {
            html.Markup("<section><h2>"u8).Text(Words["desk contact"]).Markup("</h2>"u8);
            ContactList.Write(html, opened.Words, contact);
            html.Markup("</section>"u8);
        }

        WriteDone();
    }

    void WriteVisits()
    {
        foreach (var visit in opened.Visits)
        {
            html.Markup("<section><h2>"u8).Text(Words.Letter.Text("desk visit", ("moment", Words.Letter.Moment(visit.At)))).Markup("</h2>"u8);
            new VersionOfRecord(html, Words).Write(visit);
            html.Markup("</section>"u8);
        }
    }

    /// <summary>Other requests that stand with the same number or address: they may be by the same person.</summary>
    void WriteSamePerson()
    {
        if (opened.SamePerson.IsEmpty)
            return;
        html.Element("p"u8, Words["desk same person"]).Markup("<ul>"u8);
        foreach (var other in opened.SamePerson)
            html.Markup("<li><a"u8).Attribute("href"u8, "/staff/desk/" + other.Request.Conversation).Markup(">"u8).Typed(QueuePage.NameOf(Words, other)).Markup("</a></li>"u8);
        html.Markup("</ul>"u8);
    }

    /// <param name="none">Key of what is said if there is none; null: the part is left out then.</param>
    void WriteAnswers(string heading, ImmutableArray<AnswerTold> answers, string? none)
    {
        if (answers.IsEmpty && none is null)
            return;
        html.Markup("<section><h2>"u8).Text(Words[heading]).Markup("</h2>"u8);
        if (answers.IsEmpty)
            html.Element("p"u8, Words[none!]);
        html.Markup(answers.IsEmpty ? default : "<ul>"u8);
        foreach (var answer in answers)
        {
            html.Markup("<li><strong>"u8).Text(opened.Words.Letter.Brief(answer.Fact, answer.Ear)).Markup("</strong>: "u8).Text(opened.Words.Letter.Value(answer.Fact, answer.Value));
            if (answer.Earlier is { } earlier)
                html.Text(". ").Text(Words.Letter.Text("desk earlier", ("answer", opened.Words.Letter.Value(answer.Fact, earlier == AnswerTold.Unsure ? null : earlier))));
            html.Markup("</li>"u8);
        }

        html.Markup(answers.IsEmpty ? "</section>"u8 : "</ul></section>"u8);
    }

    void WriteOwnWords(ImmutableArray<string> typed)
    {
        html.Markup("<section><h2>"u8).Text(Words["desk own words"]).Markup("</h2>"u8);
        if (typed.IsEmpty)
            html.Element("p"u8, Words["desk own words none"]);
        foreach (var text in typed)
            html.Markup("<blockquote class=\"said\">"u8).Typed(text).Markup("</blockquote>"u8);
        html.Markup("</section>"u8);
    }

    void WritePlainNos(ImmutableArray<AnswerTold> clear)
    {
        if (!clear.IsEmpty)
            html.Markup("<details><summary>"u8).Text(Words["desk plain no"]).Markup("</summary><p>"u8).Text(string.Join("; ", clear.Select(a => opened.Words.Letter.Brief(a.Fact, a.Ear)))).Markup("</p></details>"u8);
    }

    /// <summary>Under headings of the plan, as the patient has it.</summary>
    void WriteTold()
    {
        html.Markup("<section><h2>"u8).Text(Words["desk told"]).Markup("</h2><details><summary>"u8).Text(Words["desk told open"]).Markup("</summary><div>"u8);
        foreach (var section in opened.Words.Letter.Write(new Reply.Outcome(opened.Told), now).OfType<LetterPart.OutcomeShown>().SelectMany(o => o.Sections)
            .Where(s => s.Kind is not (OutcomeSectionKind.ForTheClinician or OutcomeSectionKind.WhoDecides)))
        {
            html.Element("h3"u8, section.Heading);
            ProseWriter.Write(html, section.Text, HeadingTag.Fourth);
        }

        html.Markup("</div></details></section>"u8);
    }

    void WriteDone()
    {
        html.Markup("<section id=\"done\"><h2>"u8).Text(Words["desk done"]).Markup("</h2>"u8);
        if (opened.Request.Steps.IsEmpty && opened.Request.Judged is null)
            html.Element("p"u8, Words["desk nothing done"]);
        html.Markup("<ul>"u8);
        if (opened.Request.Judged is { } judged)
            WriteLine(Words.Letter.Text("desk judged", ("moment", Words.Letter.Moment(judged.At)), ("level", judged.Urgency.Level)), judged.By, judged.Because);
        foreach (var step in opened.Request.Steps)
            WriteLine(StepWords.Of(Words, step), step.By, step.Note);
        html.Markup("</ul></section>"u8);
    }

    void WriteLine(string what, string by, string note)
    {
        html.Markup("<li>"u8).Text(what).Markup(" "u8).Text(Words.Letter.Text("desk by", ("who", opened.By.GetValueOrDefault(by, by))));
        if (note.Length > 0)
            html.Markup("<br>"u8).Typed(note);
        html.Markup("</li>"u8);
    }
}
