using EarHelp.Clinic.Auditing;
using EarHelp.Clinic.Keeping;
using EarHelp.Web.Tests.Running;
using EarHelp.Web.Tests.Staff;
using EarHelp.Web.Tests.Visits;
using Microsoft.Extensions.DependencyInjection;
using Microsoft.Extensions.Time.Testing;

namespace EarHelp.Web.Tests.Desk;

/// <summary>What happens by the clock: nobody answers, the clinic closes at once, somebody does not come.</summary>
public sealed class MovedClockTests : IAsyncLifetime, IDisposable
{
    readonly FakeTimeProvider _clock = new(new DateTimeOffset(2026, 11, 24, 10, 0, 0, TimeSpan.Zero));
    RunningService _service = null!;
    Colleague _kim = null!;

    public async Task InitializeAsync()
    {
        _service = await RunningService.StartAsync(configure: services => services.AddSingleton<TimeProvider>(_clock), settings: ["--requests-a-minute", "100000"]);
        _kim = new Colleague(_service, "kim");
        await _kim.JoinAsync(ClinicStaff.PrintedCode(_service));
        var address = "/staff/accounts/" + (await StaffAsync().AllAsync(default)).Single().Id;
        await _kim.SendAsync(address + "/roles", await _kim.Browser.ReadAsync(address), ("roles", "administrator"), ("roles", "desk"), ("roles", "clinician"));
    }

    public async Task DisposeAsync() => await _service.DisposeAsync();

    public void Dispose() => _kim.Dispose();

    [Fact]
    public async Task A_request_that_nobody_answers_goes_to_the_only_member_of_staff_before_the_patient_goes_elsewhere_and_ends_with_an_answer()
    {
        using var patient = await AskedAsync();
        var address = "/staff/desk/" + await _service.ConversationOfAsync(patient);
        await _kim.SendAsync(address + "/level", await _kim.Browser.ReadAsync(address), ("level", "within a day"), ("reason", "fever"));
        var request = (await KeptAsync(patient)).Request;
        var half = (request.Judged!.Urgency.AnswerBy!.Value - request.MadeAt) / 2;
        await MoveAsync(half.ToTimeSpan() - TimeSpan.FromMinutes(2));
        Assert.DoesNotContain("Nobody answered in time", (await _kim.Browser.ReadAsync("/staff")).Text, StringComparison.Ordinal);

        await MoveAsync(TimeSpan.FromMinutes(3));

        Assert.Contains("Nobody answered in time: 1 waiting", (await _kim.Browser.ReadAsync("/staff")).Text, StringComparison.Ordinal);
        var row = Assert.Single(await TrailAsync(), e => e.Deed == AuditDeed.Escalated);
        Assert.Equal((Actor.Service, await _service.ConversationOfAsync(patient)), (row.Who, row.Conversation));
        Assert.DoesNotContain("Told whoever is on duty", (await patient.ReadAsync("/visit")).Text, StringComparison.Ordinal);
        Assert.Contains("If nobody has answered", (await patient.ReadAsync("/visit")).Text, StringComparison.Ordinal);

        await _kim.SendAsync(address + "/telephone", await _kim.Browser.ReadAsync(address), ("note", "comes today"));
        await MoveAsync(TimeSpan.FromMinutes(1));
        Assert.DoesNotContain("Nobody answered in time", (await _kim.Browser.ReadAsync("/staff")).Text, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Closing_at_once_calls_visits_off_stops_offers_and_tells_where_to_go_instead_until_it_is_over()
    {
        using var booked = await AskedAsync();
        await BookAsync(booked);
        var time = (await KeptAsync(booked)).Request.Booked;
        Assert.NotNull(time);
        var page = await _kim.Browser.ReadAsync("/staff/closing");
        Assert.Equal(422, (int)(await _kim.SendAsync("/staff/closing", page, ("last-day", "2026-11-23"))).Status);

        var closed = await _kim.SendAsync("/staff/closing", page, ("last-day", "2026-12-20"));

        Assert.Contains("The clinic is closed from now until the end of Sunday 20 December 2026", closed.Text, StringComparison.Ordinal);
        Assert.Null((await KeptAsync(booked)).Request.Booked);
        var request = await booked.ReadAsync("/visit");
        Assert.Contains("had to close at once. Your visit at", request.Text, StringComparison.Ordinal);
        Assert.Contains("If nobody has answered", request.Text, StringComparison.Ordinal);
        Assert.DoesNotContain("Tidewell Lane Ear Clinic can see you in time", request.Text, StringComparison.Ordinal);
        Assert.Contains("had to close at once and opens again after Sunday 20 December 2026", (await booked.ReadAsync("/plan")).Text, StringComparison.Ordinal);
        Assert.DoesNotContain("name=\"start\"", (await booked.ReadAsync("/visit/times")).Html, StringComparison.Ordinal);
        Assert.Contains("the clinic closed, and the visit", (await _kim.Browser.ReadAsync("/staff/desk")).Text.Split("To be answered")[1], StringComparison.Ordinal);
        using var stranger = _service.NewPatient();
        Assert.DoesNotContain("href=\"/visit\"", (await Asking.PlanAsync(stranger, Asking.DullForWeeks)).Html, StringComparison.Ordinal);

        await _kim.SendAsync("/staff/closing/open", await _kim.Browser.ReadAsync("/staff/closing"));
        Assert.Contains("name=\"start\"", (await booked.ReadAsync("/visit/times")).Html, StringComparison.Ordinal);
        await _service.StartAgainAsync();
        using var again = _service.Again(booked);
        Assert.Contains("name=\"start\"", (await again.ReadAsync("/visit/times")).Html, StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_closing_outlives_a_restart()
    {
        await _kim.SendAsync("/staff/closing", await _kim.Browser.ReadAsync("/staff/closing"), ("last-day", "2026-12-20"));

        await _service.StartAgainAsync();

        using var stranger = _service.NewPatient();
        Assert.DoesNotContain("href=\"/visit\"", (await Asking.PlanAsync(stranger, Asking.DullForWeeks)).Html, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Who_did_not_come_reads_so_and_may_choose_another_time()
    {
        using var patient = await AskedAsync();
        await BookAsync(patient);
        var address = "/staff/desk/" + await _service.ConversationOfAsync(patient);
        Assert.DoesNotContain("did-not-come", (await _kim.Browser.ReadAsync(address)).Html, StringComparison.Ordinal);

        await MoveAsync(TimeSpan.FromHours(3));
        await _kim.SendAsync(address + "/did-not-come", await _kim.Browser.ReadAsync(address));

        var request = await patient.ReadAsync("/visit");
        Assert.Contains("expected you at", request.Text, StringComparison.Ordinal);
        Assert.Contains("Choose a time", request.Text, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Two_requests_with_one_number_point_to_each_other_and_duty_is_one_button()
    {
        using var one = await AskedAsync();
        using var other = await AskedAsync();

        var page = await _kim.Browser.ReadAsync("/staff/desk/" + await _service.ConversationOfAsync(one));

        Assert.Contains("/staff/desk/" + await _service.ConversationOfAsync(other), page.Html, StringComparison.Ordinal);
        var onDuty = await _kim.SendAsync("/staff/duty", await _kim.Browser.ReadAsync("/staff"), ("duty", "on"));
        Assert.Contains("You are on duty", onDuty.Text, StringComparison.Ordinal);
    }

    async Task<Patient> AskedAsync()
    {
        var patient = _service.NewPatient();
        await Asking.PlanAsync(patient, Asking.DullForWeeks);
        await Asking.AskAsync(patient, ("number", "07700 900123"));
        return patient;
    }

    async Task BookAsync(Patient patient)
    {
        var address = "/staff/desk/" + await _service.ConversationOfAsync(patient);
        var page = await _kim.Browser.ReadAsync(address);
        var start = System.Text.RegularExpressions.Regex.Match(page.Html, "name=\"start\" value=\"(?<at>[0-9]+)\"").Groups["at"].Value;
        await _kim.SendAsync(address + "/time", page, ("start", start), ("agreed", "yes"));
    }

    /// <summary>Moves the clock, and looks as the service does every minute.</summary>
    async Task MoveAsync(TimeSpan by)
    {
        _clock.Advance(by);
        await _service.Services.GetRequiredService<Web.Desk.DeskWatch>().LookAsync(default);
    }

    IStaffStore StaffAsync() => _service.Services.GetRequiredService<IStaffStore>();

    async Task<IEnumerable<AuditEntry>> TrailAsync() => (await _service.Services.GetRequiredService<IAuditTrail>().ReadAsync(default)).Entries;

    async Task<KeptRequest> KeptAsync(Patient patient) =>
        (await _service.Services.GetRequiredService<IRequestStore>().FindAsync(await _service.ConversationOfAsync(patient), default))!;
}
