using EarHelp.Cli.Tests.Commands;
using EarHelp.Clinic.Desk;
using EarHelp.Clinic.Keeping;
using EarHelp.Clinic.Records;
using EarHelp.Clinic.Requests;
using EarHelp.Conversation.Keeping;
using EarHelp.Conversation.Taking;
using EarHelp.Web.Tests.Running;
using Microsoft.Extensions.DependencyInjection;
using NodaTime;

namespace EarHelp.Cli.Tests.Demonstrating;

public sealed class DemoTests(FilledDemo demo) : IClassFixture<FilledDemo>
{
    static readonly Instant Now = Instant.FromDateTimeOffset(Called.Now);

    [Fact]
    public async Task The_desk_has_requests_with_time_left_and_overdue_and_every_answer_that_staff_can_give()
    {
        var waiting = await WaitingRequests.FindAsync(Part<IRequestStore>(), Part<ITurnStore>(), CancellationToken.None);

        var open = DeskOrder.Of(waiting, Now).Unanswered;
        Assert.Contains(open, k => k.Request.Urgency.SeenBy > Now);
        Assert.Contains(open, k => k.Request.Urgency.AnswerBy < Now);
        string[] levels = ["within hours", "within a day", "within three days", "in two weeks", "no hurry"];
        Assert.Equal(levels.Order(), waiting.Select(k => k.Request.Urgency.Level).Distinct().Order());
        DeskStepKind[] kinds = [DeskStepKind.Accepted, DeskStepKind.OfferedTime, DeskStepKind.Telephoned, DeskStepKind.NotReached, DeskStepKind.SentElsewhere, DeskStepKind.DidNotCome];
        Assert.Equal(kinds, waiting.SelectMany(k => k.Request.Steps).Select(s => s.Kind).Where(k => k != DeskStepKind.Escalated).Distinct().Order());
        Assert.Contains(waiting, k => k.Request.Judged is { } judged && judged.Urgency.Rank < k.Request.Urgency.Rank + 1 && judged.Because.Length > 0);
        Assert.Contains(waiting, k => k.Request.Booked is { } booked && booked.Start > Now);
    }

    [Fact]
    public async Task Two_patients_of_the_week_never_have_the_same_time()
    {
        var times = (await Part<IRequestStore>().WaitingAsync(CancellationToken.None)).Select(k => k.Request.Booked).OfType<Clinic.Times.VisitTime>().OrderBy(t => t.Start).ToList();

        Assert.True(times.Count > 10);
        Assert.All(times.Zip(times.Skip(1)), pair => Assert.False(pair.First.Overlaps(pair.Second)));
    }

    [Fact]
    public async Task Every_page_of_staff_has_something_to_show_and_says_that_it_is_invented()
    {
        string[] pages = ["", "/desk", "/callers", "/visits", "/closing", "/recall?rule=within+a+day", "/incidents", "/figures", "/accounts", "/audit", "/me"];
        string[] empty = ["Nothing was reported.", "None.", "No visit is recorded.", "Nothing began in this month", "Told by this rule: 0"];

        foreach (var address in pages)
        {
            var page = await demo.Imke.Browser.ReadAsync("/staff" + address);
            Assert.Equal((address, System.Net.HttpStatusCode.OK), (address, page.Status));
            Assert.Contains("Invented data", page.Text, StringComparison.Ordinal);
            Assert.All(empty, e => Assert.DoesNotContain(e, page.Text, StringComparison.OrdinalIgnoreCase));
        }
    }

    [Fact]
    public async Task Every_level_and_every_list_of_the_figures_shows_a_figure()
    {
        var file = (await demo.Imke.Browser.ReadAsync("/staff/figures.csv?month=2026-11")).Html.Split("\r\n", StringSplitOptions.RemoveEmptyEntries);

        Assert.All(file.Where(l => l.StartsWith("2026-11,Outcomes,", StringComparison.Ordinal)), l => Assert.Matches(",[0-9]+$", l));
        Assert.All(file.Where(l => l.StartsWith("2026-11,Conversations,", StringComparison.Ordinal)), l => Assert.Matches(",[0-9]+$", l));
        foreach (var list in (string[])["Stops", "NotSure", "NotFound", "Answers"])
            Assert.Contains(file, l => l.StartsWith($"2026-11,{list},", StringComparison.Ordinal));
        foreach (var level in (string[])["within a day", "within three days", "in two weeks", "no hurry"])
            Assert.Contains(file, l => l.StartsWith($"2026-11,AnswerTimes,,{level},", StringComparison.Ordinal) && char.IsAsciiDigit(l[^1]) && !l.EndsWith("under 5", StringComparison.Ordinal));
    }

    [Fact]
    public async Task A_patients_link_opens_a_plan_with_a_booked_visit_and_the_other_one_a_plan_after_a_visit()
    {
        using var booked = demo.Running.NewPatient();
        using var seen = demo.Running.NewPatient();

        await OpenAsync(booked, demo.Links[0]);
        await OpenAsync(seen, demo.Links[1]);

        Assert.True((await booked.ReadAsync("/plan")).IsPlan);
        var visit = (await booked.ReadAsync("/visit")).Text;
        Assert.Contains("Your visit", visit, StringComparison.OrdinalIgnoreCase);
        Assert.Contains("Invented data", visit, StringComparison.Ordinal);
        var after = await seen.ReadAsync("/aftercare");
        Assert.Equal(System.Net.HttpStatusCode.OK, after.Status);
        Assert.Contains("Invented data", after.Text, StringComparison.Ordinal);
    }

    [Fact]
    public async Task What_was_not_understood_may_be_read_because_the_people_said_so()
    {
        var page = await demo.Running.Services.GetRequiredService<IKeptConversations>().ConversationsAsync(CancellationToken.None);

        var unanswered = await Called.WithAsync("unanswered", "--data", demo.Folder);

        Assert.True(page.Length > 100);
        Assert.Contains("photographs of the ear", unanswered.Out, StringComparison.Ordinal);
        Assert.Contains("bicycle", unanswered.Out, StringComparison.Ordinal);
    }

    [Fact]
    public async Task The_record_of_somebody_who_was_seen_holds_the_plan_after_the_visit()
    {
        var visit = (await Part<IVisitStore>().AllAsync(CancellationToken.None)).First(v => v.Findings.Any(f => f.Finding == "suction"));

        var record = await Called.WithAsync("records", "--conversation", visit.Before!, "--data", demo.Folder);
        var day = await Called.WithAsync("records", "--day", visit.At.InUtc().Date.ToString("uuuu-MM-dd", System.Globalization.CultureInfo.InvariantCulture), "--data", demo.Folder);

        Assert.All((string[])[record.Out, day.Out], bundle => Assert.Contains($"/CarePlan/{visit.Conversation}\"", bundle, StringComparison.Ordinal));
        Assert.Contains("After the visit of", record.Out, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Every_conversation_replays_to_the_replies_that_are_kept()
    {
        var taking = Part<TurnTaking>();
        var replayed = 0;

        foreach (var conversation in (await Part<IKeptConversations>().ConversationsAsync(CancellationToken.None)).Take(25))
        {
            Assert.Empty((await taking.ReplayAsync(conversation, CancellationToken.None)).Differing);
            replayed++;
        }

        Assert.Equal(25, replayed);
    }

    [Fact]
    public async Task Nobody_has_a_password_and_the_printed_codes_are_kept_nowhere()
    {
        var osric = (await Part<IStaffStore>().AllAsync(CancellationToken.None)).Single(a => a.ShownName == "Osric Vane");

        Assert.Null(osric.PasswordHash);
        Assert.Equal(Web.Security.Secret.HashOf(demo.CodeOf("Osric Vane").Replace(" ", "", StringComparison.Ordinal)), osric.Invitation!.Hash);
        Assert.All(Directory.EnumerateFiles(demo.Folder, "earhelp*.db"), file => Assert.False(Holds(file, demo.CodeOf("Osric Vane").Replace(" ", "", StringComparison.Ordinal))));
    }

    [Fact]
    public async Task Nothing_is_ever_signed_where_everything_is_invented()
    {
        var ledger = await Conversation.Signing.Ledger.ReadAsync(Part<IEditionLedger>(), CancellationToken.None);
        var signed = await Called.WithAsync(
            "sign", ".", "--data", demo.Folder, "--as", "author", "--name", "A. Author", "--role", "author", "--reason", "a try", "--expires", "2027-01-01");

        Assert.True(ledger.IsInvented);
        Assert.Equal(1, signed.ExitCode);
        Assert.Contains("everything in this store is made up", signed.Error, StringComparison.Ordinal);
        Assert.False(Part<Web.Editions.LedgerInForce>().IsSigned(ledger.Deeds[0].Edition));
    }

    static async Task OpenAsync(Patient patient, string link)
    {
        var page = await patient.ReadAsync(link);
        await patient.PostAsync("/back", page.FormTo("/back"));
    }

    static bool Holds(string file, string text)
    {
        using var stream = new FileStream(file, FileMode.Open, FileAccess.Read, FileShare.ReadWrite);
        using var reader = new StreamReader(stream, System.Text.Encoding.Latin1);
        return reader.ReadToEnd().Contains(text, StringComparison.Ordinal);
    }

    T Part<T>()
        where T : notnull => demo.Running.Services.GetRequiredService<T>();
}
