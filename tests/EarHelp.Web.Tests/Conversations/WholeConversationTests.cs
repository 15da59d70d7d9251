using EarHelp.Web.Tests.Running;

namespace EarHelp.Web.Tests.Conversations;

/// <summary>Whole conversations by plain forms, as in a browser without JavaScript.</summary>
[Collection(OneService.Name)]
public sealed class WholeConversationTests(SharedService service)
{
    static readonly Dictionary<string, string[]> BlockedEar = new()
    {
        ["ears affected"] = ["left"],
        ["hearing"] = ["usual"],
        ["ear signs"] = ["blocked"],
    };

    [Fact]
    public async Task A_blocked_ear_ends_in_a_plan_with_a_time_line()
    {
        using var patient = service.Running.NewPatient();

        var plan = await patient.ReachPlanAsync(await patient.BeginAsync(), BlockedEar);

        Assert.Equal("/plan", plan.Address.AbsolutePath);
        Assert.StartsWith("Your plan", plan.Title, StringComparison.Ordinal);
        Assert.Contains("What happens when", plan.Text);
        Assert.Contains("What to tell the clinician", plan.Text);
        Assert.Contains("Something has changed", plan.Text);
        Assert.Contains("In an emergency call 999", plan.Text);
    }

    [Fact]
    public async Task A_stroke_sign_is_told_to_call_at_once()
    {
        using var patient = service.Running.NewPatient();
        var danger = await patient.BeginAsync();

        var plan = await patient.AnswerAsync(danger, ("a:speech trouble", "yes"));

        Assert.Equal("danger signs", danger.Screen);
        Assert.True(plan.IsPlan);
        Assert.Contains("999", plan.Text);
    }

    [Fact]
    public async Task Every_answer_stands_in_the_letter_and_can_be_changed()
    {
        using var patient = service.Running.NewPatient();
        await patient.ReachPlanAsync(await patient.BeginAsync(), BlockedEar);

        var letter = await patient.ReadAsync("/letter");
        var form = letter.FormTo("/change");
        var asked = await patient.PostAsync("/change", form);

        Assert.Contains("34 years", letter.Text);
        Assert.Equal("form", form["screen"]);
        Assert.Equal("form", asked.Screen);
    }

    [Fact]
    public async Task An_emergency_in_the_first_message_shows_its_text_at_once_and_keeps_it()
    {
        using var patient = service.Running.NewPatient();

        var page = await patient.BeginAsync("my face is drooping and I cannot speak properly");
        var later = await patient.ReadAsync("/letter");

        Assert.Contains("class=\"alarm\"", page.Html);
        Assert.Contains("class=\"alarm\"", later.Html);
    }

    [Fact]
    public async Task Something_has_changed_asks_the_danger_signs_again()
    {
        using var patient = service.Running.NewPatient();
        var plan = await patient.ReachPlanAsync(await patient.BeginAsync(), BlockedEar);

        var asked = await patient.PostAsync("/changed", plan.FormTo("/changed"));

        Assert.Equal("danger signs", asked.Screen);
    }

    [Fact]
    public async Task Starting_over_puts_the_answers_away()
    {
        using var patient = service.Running.NewPatient();
        await patient.BeginAsync("the left ear");
        var ask = await patient.ReadAsync("/start-over");

        var page = await patient.PostAsync("/start-over", ask.FormTo("/start-over"));

        Assert.Equal("form", page.Screen);
        Assert.DoesNotContain("34 years", page.Text);
    }

    [Fact]
    public async Task A_form_with_gaps_comes_back_with_what_was_put_in_and_what_is_missing()
    {
        using var patient = service.Running.NewPatient();

        var page = await patient.AnswerAsync(await patient.ReadAsync("/"), ("n:age", "abc"), ("a:about whom", "me"), ("text", "my ear"));

        Assert.Equal(422, (int)page.Status);
        Assert.StartsWith("Error: ", page.Title, StringComparison.Ordinal);
        Assert.Contains("value=\"abc\"", page.Html);
        Assert.Contains(">my ear</textarea>", page.Html);
        Assert.Contains("value=\"me\" checked", page.Html);
        Assert.Contains("aria-invalid=\"true\" aria-describedby=\"fault-1\"", page.Html);
        Assert.Contains("id=\"fault-2\"", page.Html);
    }

    [Fact]
    public async Task None_and_something_together_are_asked_again()
    {
        using var patient = service.Running.NewPatient();
        var danger = await patient.BeginAsync();

        var page = await patient.AnswerAsync(danger, ("a:speech trouble", "yes"), ("none", "yes"));

        Assert.Equal(422, (int)page.Status);
        Assert.Equal(danger.Screen, page.Screen);
        Assert.Contains("Choose one or the other", page.Text);
    }

    [Fact]
    public async Task Nothing_is_chosen_beforehand()
    {
        using var patient = service.Running.NewPatient();

        var first = await patient.ReadAsync("/");
        var danger = await patient.BeginAsync();

        Assert.DoesNotContain(" checked", first.Html);
        Assert.DoesNotContain(" checked", danger.Html);
    }

    [Fact]
    public async Task Who_has_a_conversation_is_brought_to_it()
    {
        using var patient = service.Running.NewPatient();
        await patient.BeginAsync();

        var page = await patient.ReadAsync("/");

        Assert.Equal("/letter", page.Address.AbsolutePath);
        Assert.Equal("danger signs", page.Screen);
    }

    [Fact]
    public async Task A_page_that_appends_gets_only_what_is_new()
    {
        using var patient = service.Running.NewPatient();
        var danger = await patient.BeginAsync();

        var response = await patient.SendAsync("/answer", danger.Hidden.Append(new("none", "yes")), ("X-Part", "1"));
        var part = await response.Content.ReadAsStringAsync();

        Assert.Equal(200, (int)response.StatusCode);
        Assert.StartsWith("<div data-title=\"", part, StringComparison.Ordinal);
        Assert.Contains("id=\"now\"", part);
        Assert.DoesNotContain("<html", part);
    }

    [Fact]
    public async Task A_page_that_appends_is_sent_on_to_the_plan()
    {
        using var patient = service.Running.NewPatient();
        var danger = await patient.BeginAsync();

        var response = await patient.SendAsync("/answer", danger.Hidden.Append(new("a:speech trouble", "yes")), ("X-Part", "1"));

        Assert.Equal("/plan", response.Headers.GetValues("X-Next").Single());
    }
}
