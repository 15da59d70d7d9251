using System.Text.RegularExpressions;
using EarHelp.Web.Tests.Running;

namespace EarHelp.Web.Tests.Conversations;

[Collection(OneService.Name)]
public sealed class RepeatedTurnTests(SharedService service)
{
    [Fact]
    public async Task The_same_form_sent_twice_counts_once()
    {
        using var patient = service.Running.NewPatient();
        var danger = await patient.BeginAsync();
        var sent = danger.Hidden.Append(new("none", "yes")).ToList();

        var first = await patient.PostAsync("/answer", sent);
        var second = await patient.PostAsync("/answer", sent);

        Assert.Equal(first.Screen, second.Screen);
        Assert.Equal(Answers(first), Answers(second));
    }

    [Fact]
    public async Task Fifty_copies_of_the_first_form_begin_one_conversation()
    {
        using var patient = service.Running.NewPatient();
        var page = await patient.ReadAsync("/");
        var sent = page.Hidden.Concat([new("a:about whom", "me"), new("n:age", "34"), new("a:where now", "near the clinic")]).ToList();

        var answers = await Task.WhenAll(Enumerable.Range(0, 50).Select(_ => patient.SendAsync("/answer", sent)));
        var letter = await patient.ReadAsync("/letter");

        Assert.All(answers, a => Assert.Equal(303, (int)a.StatusCode));
        Assert.Equal(1, Answers(letter));
        Assert.Equal("danger signs", letter.Screen);
    }

    [Fact]
    public async Task A_stale_tab_is_shown_and_asked_again_and_never_applied_elsewhere()
    {
        using var patient = service.Running.NewPatient();
        var danger = await patient.BeginAsync();
        var next = await patient.AnswerAsync(danger, ("none", "yes"));
        var stale = danger.Hidden.Select(h => h.Key == "turn" ? new("turn", "another") : h).Append(new("a:face drooping", "yes"));

        var page = await patient.PostAsync("/answer", stale);

        Assert.Equal(200, (int)page.Status);
        Assert.Equal(next.Screen, page.Screen);
        Assert.Contains("You answered an earlier question", page.Text);
    }

    [Fact]
    public async Task What_is_written_beside_an_answer_is_kept_too()
    {
        using var patient = service.Running.NewPatient();
        var danger = await patient.BeginAsync();

        var page = await patient.AnswerAsync(danger, ("none", "yes"), ("text", "it began at the lake"));

        Assert.Contains("it began at the lake", page.Text);
    }

    [Fact]
    public async Task A_form_of_a_conversation_that_is_gone_says_so_with_the_emergency_text()
    {
        using var patient = service.Running.NewPatient();
        var danger = await patient.BeginAsync();
        using var stranger = service.Running.NewPatient();
        var token = (await stranger.ReadAsync("/")).Hidden.Single(h => h.Key == "token");
        var later = danger.Hidden.Where(h => h.Key != "token").Select(h => h.Key == "asked" ? new("asked", "7") : h).Append(token);

        var page = await stranger.PostAsync("/answer", later.Append(new("none", "yes")));

        Assert.Equal(404, (int)page.Status);
        Assert.Contains("has been deleted", page.Text);
        Assert.Contains("999", page.Text);
    }

    static int Answers(PageRead page) => Regex.Count(page.Html, "class=\"answered\"");
}
