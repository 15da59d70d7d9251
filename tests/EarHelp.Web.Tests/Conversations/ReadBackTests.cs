using EarHelp.Web.Tests.Running;

namespace EarHelp.Web.Tests.Conversations;

/// <summary>What somebody writes is read back by plain forms, as in a browser without JavaScript.</summary>
[Collection(OneService.Name)]
public sealed class ReadBackTests(SharedService service)
{
    const string Story = "My left ear feels blocked, I swam in the river every day, no pain";

    [Fact]
    public async Task A_first_message_is_enough_to_begin_and_each_part_of_what_was_understood_has_its_tick()
    {
        using var patient = service.Running.NewPatient();

        var page = await patient.AnswerAsync(await patient.ReadAsync("/"), ("text", Story));

        Assert.Equal("read back", page.Screen);
        Assert.Contains("We understood: The left ear; Swimming. Is that right?", page.Text);
        Assert.Equal(2, page.Fields.Count(f => f.Name == "part"));
        Assert.Contains("we ask you next: Blocked, Pain.", page.Text);
    }

    [Fact]
    public async Task What_is_confirmed_is_not_asked_again_and_the_signs_are()
    {
        using var patient = service.Running.NewPatient();

        var page = await patient.ConfirmAsync(await patient.AnswerAsync(await patient.ReadAsync("/"), ("text", Story)), "0", "1");

        Assert.Equal("ear signs", page.Screen);
        Assert.Contains(page.Fields, f => f.Name == "a:blocked");
    }

    [Fact]
    public async Task A_part_without_its_tick_is_asked()
    {
        using var patient = service.Running.NewPatient();

        var page = await patient.ConfirmAsync(await patient.AnswerAsync(await patient.ReadAsync("/"), ("text", Story)), "1");

        Assert.Equal("ears affected", page.Screen);
    }

    [Fact]
    public async Task A_form_of_which_a_part_is_filled_in_is_still_asked_for_the_rest()
    {
        using var patient = service.Running.NewPatient();

        var page = await patient.AnswerAsync(await patient.ReadAsync("/"), ("a:about whom", "me"), ("text", Story));

        Assert.Equal(422, (int)page.Status);
        Assert.Contains(Story, page.Html, StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_question_without_an_answer_offers_the_nearest_as_buttons()
    {
        using var patient = service.Running.NewPatient();

        var page = await patient.BeginAsync("does the moon change the tides?");

        Assert.Contains("We found no answer to your question", page.Text);
        Assert.Contains("name=\"topic\"", page.Html, StringComparison.Ordinal);
        Assert.Equal("danger signs", page.Screen);
    }
}
