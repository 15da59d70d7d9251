using System.Collections.Immutable;
using EarHelp.Clinic.Auditing;
using EarHelp.Clinic.Keeping;
using EarHelp.Clinic.Requests;
using EarHelp.Clinic.Staff;
using EarHelp.Conversation.Keeping;
using EarHelp.Conversation.Searching;
using EarHelp.Web.Editions;
using EarHelp.Web.Markup;
using EarHelp.Web.Pages;
using EarHelp.Web.Staff;
using NodaTime;

namespace EarHelp.Web.Desk;

/// <summary>The list of people who were told something by a rule, or a level, that turned out to be wrong, so that each is reached.</summary>
public sealed class RecallPages(StaffGate gate, IKeptConversations kept, ITurnStore turns, IRequestStore requests, ServedEditions editions, Auditor auditor)
{
    const string Edition = "edition";
    const string Rule = "rule";

    static readonly StaffRole[] Roles = [StaffRole.Desk, StaffRole.Clinician, StaffRole.Approver, StaffRole.Administrator];

    public async Task ReadAsync(HttpContext context)
    {
        if (await gate.ReadAsync(context, Roles) is not { } reader)
            return;
        var edition = StaffForm.ReadLine(context.Request.Query[Edition]);
        var rule = StaffForm.ReadLine(context.Request.Query[Rule]);
        if (edition.Length == 0)
            edition = editions.Current!.Edition.Id;
        var found = rule.Length == 0 ? null : await FindAsync(reader, edition, rule, context.RequestAborted);
        await PageResponse.SendAsync(context, StaffFrame.Write(reader, reader.Words["recall heading"], html => WritePage(html, reader, edition, rule, found)));
    }

    async Task<Found> FindAsync(SignedIn reader, string edition, string rule, CancellationToken cancellation)
    {
        await auditor.AddAsync(reader.Account.Id, AuditDeed.ListedAffected, null, cancellation);
        var isKnown = await editions.FindAsync(edition, cancellation) is { } served && (served.Dialog.Rules.Any(r => r.Id == rule || r.Owner == rule) || served.Dialog.Levels.Any(l => l.Id == rule));
        var recall = isKnown ? await RecallSearch.FindAsync(kept, turns, edition, rule, cancellation) : new Recall([], []);
        var people = ImmutableArray.CreateBuilder<(ToldByRule Told, KeptRequest? Request)>();
        foreach (var told in recall.Told.GroupBy(t => t.Conversation).Select(c => c.Last()).OrderBy(t => t.AtUnixMilliseconds))
            people.Add((told, await requests.FindAsync(told.Conversation, cancellation)));
        return new Found(isKnown, people.ToImmutable(), recall.Unreadable);
    }

    static void WritePage(HtmlWriter html, SignedIn reader, string edition, string rule, Found? found)
    {
        var words = reader.Words;
        html.Element("h1"u8, words["recall heading"]).Element("p"u8, words["recall hint"]).Markup("<form action=\"/staff/recall\">"u8);
        StaffForm.WriteLine(html, words, Edition, "recall edition", "text", "off", edition);
        StaffForm.WriteLine(html, words, Rule, "recall rule", "text", "off", rule, "recall rule hint");
        StaffForm.End(html, words, "recall find");
        if (found is null)
            return;
        if (!found.IsKnown)
        {
            StaffForm.WriteFault(html, words, "recall unknown");
            return;
        }

        html.Element("h2"u8, words.Letter.Text("recall count", ("number", found.People.Length.ToString(System.Globalization.CultureInfo.InvariantCulture))));
        foreach (var conversation in found.Unreadable)
            html.Markup("<p class=\"alarm\">"u8).Text(words.Letter.Text("recall unreadable", ("conversation", conversation))).Markup("</p>"u8);
        if (!found.People.IsEmpty)
            WriteTable(html, words, found.People);
    }

    static void WriteTable(HtmlWriter html, Words words, ImmutableArray<(ToldByRule Told, KeptRequest? Request)> people)
    {
        html.Markup("<table><thead><tr>"u8);
        foreach (var column in (string[])["recall when", "recall outcome", "desk who", "desk done"])
            html.Markup("<th scope=\"col\">"u8).Text(words[column]).Markup("</th>"u8);
        html.Markup("</tr></thead><tbody>"u8);
        foreach (var (told, request) in people)
        {
            html.Markup("<tr><td>"u8).Text(words.Letter.Moment(Instant.FromUnixTimeMilliseconds(told.AtUnixMilliseconds))).Markup("</td><td>"u8).Text(told.Outcome)
                .Text(words[told.Decided ? "recall decided" : "recall beside"]).Markup("</td><td>"u8);
            if (request is { Request.State: RequestState.Waiting })
                html.Markup("<a"u8).Attribute("href"u8, "/staff/desk/" + told.Conversation).Markup(">"u8).Typed(QueuePage.NameOf(words, request)).Markup("</a>"u8);
            else
                html.Text(words.Letter.Text("recall no contact", ("conversation", told.Conversation)));
            html.Markup("</td><td>"u8).Text(request is { Request.Steps: [.., var last] } ? StepWords.Of(words, last) : words["desk nothing done"]).Markup("</td></tr>"u8);
        }

        html.Markup("</tbody></table>"u8);
    }

    /// <param name="IsKnown">False: there is no such edition, or it has no such rule or level.</param>
    /// <param name="People">Each conversation once, with its request if it has one.</param>
    sealed record Found(bool IsKnown, ImmutableArray<(ToldByRule Told, KeptRequest? Request)> People, ImmutableArray<string> Unreadable);
}
