using System.Text.RegularExpressions;
using EarHelp.Clinic.Keeping;
using EarHelp.Clinic.Requests;
using EarHelp.Web.Tests.Running;
using Microsoft.Extensions.DependencyInjection;
using Microsoft.Extensions.Time.Testing;

namespace EarHelp.Web.Tests.Visits;

/// <summary>Times that can really be had, by a moved clock. Holidays: Good Friday 26 March and Easter Monday 29 March 2027 (the list in content/clinic.md).</summary>
public sealed partial class TimesTests : IAsyncLifetime
{
    /// <summary>Ten minutes before Good Friday begins.</summary>
    static readonly DateTimeOffset BeforeTheHoliday = new(2027, 3, 25, 23, 50, 0, TimeSpan.Zero);

    readonly FakeTimeProvider _clock = new(BeforeTheHoliday);
    readonly string _busy = Path.GetTempFileName();
    RunningService _service = null!;

    public async Task InitializeAsync()
    {
        KeepBusy("");
        _service = await RunningService.StartAsync(
            configure: services => services.AddSingleton<TimeProvider>(_clock), settings: ["--busy-calendar", _busy, "--requests-a-minute", "100000"]);
    }

    public async Task DisposeAsync()
    {
        await _service.DisposeAsync();
        File.Delete(_busy);
    }

    [Fact]
    public async Task At_ten_to_midnight_before_a_bank_holiday_the_first_time_is_on_the_saturday_after_it()
    {
        using var patient = await AskedAsync();

        var times = await patient.ReadAsync("/visit/times");

        Assert.Equal("Saturday 27 March 2027", Days(times)[0]);
        Assert.Equal("9:30 am on Saturday 27 March 2027", Labels(times)[0]);
        Assert.DoesNotContain("Friday 26 March", times.Text, StringComparison.Ordinal);
        Assert.DoesNotContain("Monday 29 March", times.Text, StringComparison.Ordinal);
    }

    [Fact]
    public async Task The_day_after_the_clocks_went_forward_is_offered_in_the_clinics_own_time()
    {
        using var patient = await AskedAsync();
        var page = await patient.ReadAsync("/visit/times");
        while (!Labels(page).Any(l => l.Contains("Tuesday 30 March", StringComparison.Ordinal)))
            page = await patient.ReadAsync(Later().Match(page.Html).Groups["a"].Value);

        var at = Labels(page).FindIndex(l => l.StartsWith("9:00 am on Tuesday 30 March", StringComparison.Ordinal));

        Assert.Equal(new DateTimeOffset(2027, 3, 30, 8, 0, 0, TimeSpan.Zero), DateTimeOffset.FromUnixTimeMilliseconds(Starts(page)[at]));
    }

    [Fact]
    public async Task Busy_times_of_the_clinics_calendar_are_not_offered()
    {
        KeepBusy("BEGIN:VEVENT\nUID:1\nDTSTAMP:20270101T000000Z\nDTSTART;VALUE=DATE:20270327\nDTEND;VALUE=DATE:20270328\nEND:VEVENT\n"
            + "BEGIN:VEVENT\nUID:2\nDTSTAMP:20270101T000000Z\nDTSTART;TZID=Europe/London:20260105T090000\nDURATION:PT2H\nRRULE:FREQ=WEEKLY;BYDAY=TU\nEND:VEVENT");
        using var patient = await AskedAsync();

        var times = await patient.ReadAsync("/visit/times");

        Assert.Equal("11:00 am on Tuesday 30 March 2027", Labels(times)[0]);
    }

    [Fact]
    public async Task While_the_clinics_calendar_cannot_be_read_nothing_is_offered_and_the_page_says_where_to_go()
    {
        using var patient = await AskedAsync();
        await File.WriteAllTextAsync(_busy, "BEGIN:VCALENDAR\r\nVERSION:2.0\r\n");

        var times = await patient.ReadAsync("/visit/times");

        Assert.Empty(Labels(times));
        Assert.Contains("We cannot see now which times are free", times.Text, StringComparison.Ordinal);
        Assert.Contains("If nobody has answered", times.Text, StringComparison.Ordinal);
        Assert.Contains("no times are offered", _service.Log.Text, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Only_times_before_the_limit_are_offered_and_if_none_is_left_the_page_says_where_to_go()
    {
        using var patient = await AskedAsync(Asking.DullForWeeks);
        var all = new List<long>();
        for (var page = await patient.ReadAsync("/visit/times"); Labels(page).Count > 0;)
        {
            all.AddRange(Starts(page));
            if (!Later().IsMatch(page.Html))
                break;
            page = await patient.ReadAsync(Later().Match(page.Html).Groups["a"].Value);
        }

        Assert.True(all.Count > 50, $"{all.Count} times");
        Assert.Equal(all.Order().Distinct(), all);
        Assert.True(DateTimeOffset.FromUnixTimeMilliseconds(all[^1]) < BeforeTheHoliday.AddDays(14));
        KeepBusy("BEGIN:VEVENT\nUID:1\nDTSTAMP:20270101T000000Z\nDTSTART:20270301T000000Z\nDTEND:20270501T000000Z\nEND:VEVENT");

        var none = await patient.ReadAsync("/visit/times");

        Assert.Contains("no free time that is soon enough", none.Text, StringComparison.Ordinal);
        Assert.Contains("If nobody has answered by", none.Text, StringComparison.Ordinal);
        Assert.Contains("family doctor", none.Text, StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_time_is_held_confirmed_put_into_a_calendar_moved_and_cancelled()
    {
        using var patient = await AskedAsync();
        var times = await patient.ReadAsync("/visit/times");

        var held = await HoldAsync(patient, times, 0);
        Assert.Contains("We hold this time: 9:30 am on Saturday 27 March 2027", held.Text, StringComparison.Ordinal);
        var booked = await patient.PostAsync("/visit/confirm", held.FormTo("/visit/confirm"));
        Assert.Contains("Your visit is at 9:30 am on Saturday 27 March 2027", booked.Text, StringComparison.Ordinal);

        var file = await patient.ReadAsync("/visit/calendar");
        Assert.Equal("text/calendar", file.Response.Content.Headers.ContentType!.MediaType);
        Assert.Contains("SUMMARY:Appointment\r\n", file.Html, StringComparison.Ordinal);
        Assert.Equal(("DTSTART:20270327T093000Z", "DTEND:20270327T101500Z"), (Line(file, "DTSTART"), Line(file, "DTEND")));
        Assert.DoesNotMatch("(?i)\\bear\\b|hearing|clinic", file.Html.Replace("earhelp", "", StringComparison.OrdinalIgnoreCase));

        var moved = await HoldAsync(patient, await patient.ReadAsync("/visit/times"), 4);
        Assert.Contains("Your visit is at 9:30 am", moved.Text, StringComparison.Ordinal);
        moved = await patient.PostAsync("/visit/confirm", moved.FormTo("/visit/confirm"));
        Assert.Contains("Your visit is at 10:30 am on Saturday 27 March 2027", moved.Text, StringComparison.Ordinal);
        Assert.Equal(Line(file, "UID"), Line(await patient.ReadAsync("/visit/calendar"), "UID"));

        var cancel = await patient.ReadAsync("/visit/cancel");
        var cancelled = await patient.PostAsync("/visit/cancel", cancel.FormTo("/visit/cancel"));
        Assert.Contains("You can choose a time now", cancelled.Text, StringComparison.Ordinal);
        Assert.Equal("/visit", (await patient.ReadAsync("/visit/calendar")).Address.AbsolutePath);
    }

    [Fact]
    public async Task A_visit_that_is_later_than_a_limit_which_came_since_says_so()
    {
        using var patient = await AskedAsync();
        var held = await HoldAsync(patient, await patient.ReadAsync("/visit/times"), 0);
        await patient.PostAsync("/visit/confirm", held.FormTo("/visit/confirm"));
        var store = _service.Services.GetRequiredService<IRequestStore>();
        var (request, contact) = (await store.FindAsync(await _service.ConversationOfAsync(patient), default))!;
        var sooner = new Urgency("within a day", 2, NodaTime.Instant.FromUtc(2027, 3, 27, 9, 0), null);

        await store.PutAsync(request.AskedAgain("sooner", sooner, request.ChangedAt), contact, default);

        Assert.Contains("This visit is later than 9:00 am on Saturday 27 March 2027", (await patient.ReadAsync("/visit")).Text, StringComparison.Ordinal);
        Assert.Contains("no free time that is soon enough", (await patient.ReadAsync("/visit/times")).Text, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Of_eight_people_who_press_the_same_time_at_once_one_gets_it_and_the_others_are_told()
    {
        var people = new List<Patient>();
        for (var i = 0; i < 8; i++)
            people.Add(await AskedAsync());
        var pages = new List<PageRead>();
        foreach (var person in people)
            pages.Add(await person.ReadAsync("/visit/times"));

        var answers = await Task.WhenAll(people.Zip(pages, (person, page) => HoldAsync(person, page, 3)));

        Assert.Single(answers, a => a.Text.Contains("We hold this time", StringComparison.Ordinal));
        Assert.Equal(7, answers.Count(a => (int)a.Status == 409 && a.Text.Contains("Someone else has just taken that time", StringComparison.Ordinal)));
        people.ForEach(p => p.Dispose());
    }

    [Fact]
    public async Task A_time_that_was_never_offered_is_not_held()
    {
        using var patient = await AskedAsync();
        var times = await patient.ReadAsync("/visit/times");
        var sunday = new DateTimeOffset(2027, 3, 28, 9, 0, 0, TimeSpan.Zero).ToUnixTimeMilliseconds();

        var refused = await patient.PostAsync("/visit/hold", [.. times.FormTo("/visit/hold"), new("start", $"{sunday}")]);
        var senseless = await patient.PostAsync("/visit/hold", [.. times.FormTo("/visit/hold"), new("start", "soon")]);

        Assert.Equal((409, 400), ((int)refused.Status, (int)senseless.Status));
    }

    [Fact]
    public async Task Who_was_here_before_needs_less_time()
    {
        using var first = await AskedAsync();
        using var again = await AskedAsync(null, ("before", "yes"));

        Assert.Contains("takes about 45 minutes", (await first.ReadAsync("/visit/times")).Text, StringComparison.Ordinal);
        Assert.Contains("takes about 30 minutes", (await again.ReadAsync("/visit/times")).Text, StringComparison.Ordinal);
    }

    async Task<Patient> AskedAsync(IReadOnlyDictionary<string, string[]>? answers = null, params (string Name, string Value)[] fields)
    {
        var patient = _service.NewPatient();
        await Asking.PlanAsync(patient, answers);
        await Asking.AskAsync(patient, [("number", "07700 900123"), .. fields]);
        return patient;
    }

    static Task<PageRead> HoldAsync(Patient patient, PageRead times, int which) =>
        patient.PostAsync("/visit/hold", [.. times.FormTo("/visit/hold"), new("start", $"{Starts(times)[which]}")]);

    void KeepBusy(string events) => File.WriteAllText(_busy, $"BEGIN:VCALENDAR\nVERSION:2.0\nPRODID:-//Test//EN\n{events}\nEND:VCALENDAR\n".Replace("\n\n", "\n", StringComparison.Ordinal));

    static List<string> Days(PageRead page) => [.. Heading().Matches(page.Html).Select(m => m.Groups["day"].Value)];

    static List<string> Labels(PageRead page) => [.. Button().Matches(page.Html).Select(m => m.Groups["label"].Value)];

    static List<long> Starts(PageRead page) => [.. Button().Matches(page.Html).Select(m => long.Parse(m.Groups["start"].Value, System.Globalization.CultureInfo.InvariantCulture))];

    static string Line(PageRead file, string name) => file.Html.Split("\r\n").Single(l => l.StartsWith(name, StringComparison.Ordinal));

    [GeneratedRegex("<h2>(?<day>\\w+day [^<]+)</h2>")]
    private static partial Regex Heading();

    [GeneratedRegex("name=\"start\" value=\"(?<start>\\d+)\" aria-label=\"(?<label>[^\"]+)\"")]
    private static partial Regex Button();

    [GeneratedRegex("href=\"(?<a>/visit/times\\?after=\\d+)\"")]
    private static partial Regex Later();
}
