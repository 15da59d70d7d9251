using EarHelp.Clinic.Keeping;
using EarHelp.Clinic.Requests;
using EarHelp.Web.Tests.Running;
using Microsoft.Extensions.DependencyInjection;

namespace EarHelp.Web.Tests.Visits;

[Collection(OneService.Name)]
public sealed class RequestTests(SharedService service)
{
    IRequestStore Store => service.Running.Services.GetRequiredService<IRequestStore>();

    [Fact]
    public async Task A_plan_that_the_clinic_can_keep_offers_a_visit_and_one_number_is_enough()
    {
        using var patient = service.Running.NewPatient();
        var plan = await Asking.PlanAsync(patient);
        Assert.Contains("href=\"/visit\"", plan.Html, StringComparison.Ordinal);

        var sent = await Asking.AskAsync(patient, ("number", "07700 900123"));

        Assert.Equal("/visit", sent.Address.AbsolutePath);
        Assert.Matches("^[0-9A-Z]{4}( [0-9A-Z]{4}){7}$", Asking.CodeOn(sent));
        Assert.Contains("If nobody has answered", sent.Text, StringComparison.Ordinal);
        var kept = await KeptAsync(patient);
        Assert.Equal(ContactDetails.Empty with { Number = "07700 900123" }, kept!.Contact);
        Assert.Contains("See your request", (await patient.ReadAsync("/plan")).Text, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Everything_that_was_told_is_shown_before_it_is_sent_and_nothing_is_kept_until_then()
    {
        using var patient = service.Running.NewPatient();
        await Asking.PlanAsync(patient);
        var form = await patient.ReadAsync("/visit");

        var review = await Asking.CheckAsync(
            patient, form, ("reach", "relay"), ("number", "07700 900123"), ("name", "Jo <b>"), ("language", "Polish"), ("sign", "yes"), ("note", "not on Mondays"));

        Assert.Contains("Jo &lt;b&gt;", review.Html, StringComparison.Ordinal);
        foreach (var told in (string[])["through a relay service", "07700 900123", "Polish", "An interpreter", "A sign language interpreter", "not on Mondays"])
            Assert.Contains(told, review.Text, StringComparison.Ordinal);
        Assert.Null(await KeptAsync(patient));
    }

    [Fact]
    public async Task Correcting_leads_back_to_the_form_as_it_was()
    {
        using var patient = service.Running.NewPatient();
        await Asking.PlanAsync(patient);
        var review = await Asking.CheckAsync(patient, await patient.ReadAsync("/visit"), ("reach", "email"), ("email", "jo@example.org"), ("carer", "yes"));

        var form = await patient.PostAsync("/visit/correct", review.FormTo("/visit/send"));

        Assert.Contains("value=\"jo@example.org\"", form.Html, StringComparison.Ordinal);
        Assert.Matches("value=\"email\" checked", form.Html);
        Assert.Matches("name=\"carer\" checked", form.Html);
    }

    [Fact]
    public async Task Without_any_way_to_reach_the_person_the_form_comes_again_and_says_so()
    {
        using var patient = service.Running.NewPatient();
        await Asking.PlanAsync(patient);

        var again = await Asking.CheckAsync(patient, await patient.ReadAsync("/visit"), ("name", "Jo"));

        Assert.Equal(422, (int)again.Status);
        Assert.StartsWith("Error: ", again.Title, StringComparison.Ordinal);
        Assert.Contains("aria-invalid", again.Html, StringComparison.Ordinal);
        Assert.Contains("value=\"Jo\"", again.Html, StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_form_sent_twice_is_one_request_with_one_code()
    {
        using var patient = service.Running.NewPatient();
        await Asking.PlanAsync(patient);
        var review = await Asking.CheckAsync(patient, await patient.ReadAsync("/visit"), ("number", "07700 900123"));

        var first = await patient.PostAsync("/visit/send", review.FormTo("/visit/send"));
        var second = await patient.PostAsync("/visit/send", review.FormTo("/visit/send"));

        Assert.Equal(Asking.CodeOn(first), Asking.CodeOn(second));
        Assert.Equal(1, (await KeptAsync(patient))!.Request.Version);
    }

    [Fact]
    public async Task The_code_opens_the_request_in_another_browser_where_it_can_be_changed_and_taken_back()
    {
        using var patient = service.Running.NewPatient();
        await Asking.PlanAsync(patient);
        var code = Asking.CodeOn(await Asking.AskAsync(patient, ("number", "07700 900123")));
        var id = await service.Running.ConversationOfAsync(patient);
        using var elsewhere = service.Running.NewPatient();
        var receipt = await elsewhere.ReadAsync("/receipt");

        var opened = await elsewhere.PostAsync("/receipt", [.. receipt.FormTo("/receipt"), new("code", code.ToLowerInvariant().Replace(' ', '-'))]);
        Assert.Contains("07700 900123", opened.Text, StringComparison.Ordinal);
        Assert.Contains("was shown when the request was sent", opened.Text, StringComparison.Ordinal);

        var review = await Asking.CheckAsync(elsewhere, await elsewhere.ReadAsync("/visit/change"), ("reach", "email"), ("email", "jo@example.org"));
        await elsewhere.PostAsync("/visit/send", review.FormTo("/visit/send"));
        Assert.Equal("jo@example.org", (await Store.FindAsync(id, default))!.Contact!.Email);
        Assert.Equal(code, Asking.CodeOn(await patient.ReadAsync("/visit")));

        var withdraw = await elsewhere.ReadAsync("/visit/withdraw");
        var withdrawn = await elsewhere.PostAsync("/visit/withdraw", withdraw.FormTo("/visit/withdraw"));
        Assert.Contains("You took the request back", withdrawn.Text, StringComparison.Ordinal);
        Assert.Null((await Store.FindAsync(id, default))!.Contact);
        Assert.Contains("Ask for a visit", (await patient.ReadAsync("/plan")).Text, StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_wrong_code_opens_nothing_and_a_cookie_or_a_link_is_no_code()
    {
        using var patient = service.Running.NewPatient();
        var receipt = await patient.ReadAsync("/receipt");

        var refused = await patient.PostAsync("/receipt", [.. receipt.FormTo("/receipt"), new("code", new string('A', 32))]);

        Assert.Equal(422, (int)refused.Status);
        Assert.Contains("This code opens nothing", refused.Text, StringComparison.Ordinal);
        Assert.Equal("/", (await patient.ReadAsync("/letter")).Address.AbsolutePath);
    }

    [Fact]
    public async Task An_emergency_and_an_unfinished_conversation_offer_no_visit()
    {
        using var patient = service.Running.NewPatient();
        var danger = await patient.BeginAsync();
        Assert.Equal("/letter", (await patient.ReadAsync("/visit")).Address.AbsolutePath.Replace("/plan", "/letter", StringComparison.Ordinal));

        var plan = await patient.ReachPlanAsync(danger, new Dictionary<string, string[]> { ["danger signs"] = ["speech trouble"] });

        Assert.DoesNotContain("href=\"/visit\"", plan.Html, StringComparison.Ordinal);
        Assert.True((await patient.ReadAsync("/visit")).IsPlan);
    }

    [Fact]
    public async Task Something_has_changed_stands_on_the_page_of_the_request_and_asks_the_danger_signs_again()
    {
        using var patient = service.Running.NewPatient();
        await Asking.PlanAsync(patient);
        var sent = await Asking.AskAsync(patient, ("number", "07700 900123"));

        var again = await patient.PostAsync("/changed", sent.FormTo("/changed"));

        Assert.Equal("danger signs", again.Screen);
        Assert.Contains("07700 900123", (await patient.ReadAsync("/visit")).Text, StringComparison.Ordinal);
    }

    [Fact]
    public async Task What_changed_after_it_was_sent_makes_the_request_more_urgent_for_staff()
    {
        using var patient = service.Running.NewPatient();
        await Asking.PlanAsync(patient);
        var sent = await Asking.AskAsync(patient, ("number", "07700 900125"));
        var again = await patient.PostAsync("/changed", sent.FormTo("/changed"));

        await patient.ReachPlanAsync(again, new Dictionary<string, string[]> { ["danger signs"] = ["face drooping"] });

        var conversation = await service.Running.ConversationOfAsync(patient);
        var turns = service.Running.Services.GetRequiredService<EarHelp.Conversation.Keeping.ITurnStore>();
        Assert.NotEqual(0, (await KeptAsync(patient))!.Request.Urgency.Rank);
        Assert.Equal(0, (await WaitingRequests.FindAsync(Store, turns, default)).Single(w => w.Request.Conversation == conversation).Request.Urgency.Rank);
    }

    [Fact]
    public async Task Privacy_and_complaints_are_one_step_away_and_the_days_are_said()
    {
        using var patient = service.Running.NewPatient();
        await Asking.PlanAsync(patient);

        var form = await patient.ReadAsync("/visit");

        Assert.Contains("We delete it 90 days after", form.Text, StringComparison.Ordinal);
        Assert.Contains("href=\"/privacy\"", form.Html, StringComparison.Ordinal);
        Assert.Contains("href=\"/complaints\"", form.Html, StringComparison.Ordinal);
        Assert.Contains("makers@earhelp.example.org", (await patient.ReadAsync("/complaints")).Text, StringComparison.Ordinal);
    }

    async Task<KeptRequest?> KeptAsync(Patient patient) => await Store.FindAsync(await service.Running.ConversationOfAsync(patient), default);
}
