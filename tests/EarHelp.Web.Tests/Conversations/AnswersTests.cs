using EarHelp.Web.Tests.Running;

namespace EarHelp.Web.Tests.Conversations;

/// <summary>Questions and answers by plain forms, as in a browser without JavaScript.</summary>
[Collection(OneService.Name)]
public sealed class AnswersTests(SharedService service)
{
    static readonly Dictionary<string, string[]> BlockedEar = new()
    {
        ["ears affected"] = ["left"],
        ["hearing"] = ["usual"],
        ["ear signs"] = ["blocked"],
    };

    [Fact]
    public async Task Without_a_conversation_there_are_no_answers_but_the_first_page()
    {
        using var patient = service.Running.NewPatient();

        var page = await patient.ReadAsync("/answers");

        Assert.Equal("/", page.Address.AbsolutePath);
    }

    [Fact]
    public async Task After_the_plan_a_topic_is_answered_at_once_with_its_picture()
    {
        using var patient = service.Running.NewPatient();
        var plan = await patient.ReachPlanAsync(await patient.BeginAsync(), BlockedEar);
        Assert.Contains("Questions and answers", plan.Text);

        var answered = await AskAsync(patient, ("topic", "cotton buds"));

        Assert.Equal("/answers", answered.Address.AbsolutePath);
        Assert.Contains("id=\"answer\"", answered.Html);
        Assert.Contains("Put nothing into the ear tube", answered.Text);
        Assert.Contains("<figure class=\"drawing picture\"><svg", answered.Html);
        Assert.Contains("leaves a dent", answered.Text);
    }

    [Fact]
    public async Task Before_the_danger_signs_are_clear_they_are_asked_first()
    {
        using var patient = service.Running.NewPatient();
        await patient.BeginAsync();

        var page = await AskAsync(patient, ("topic", "cotton buds"));

        Assert.Equal("danger signs", page.Screen);
        Assert.Contains("Your question is kept", page.Text);
        Assert.DoesNotContain("id=\"answer\"", page.Html);
    }

    [Fact]
    public async Task A_question_in_ones_own_words_is_answered()
    {
        using var patient = service.Running.NewPatient();
        await patient.ReachPlanAsync(await patient.BeginAsync(), BlockedEar);

        var answered = await AskAsync(patient, ("question", "Why do I get so much ear wax?"));

        Assert.Contains("id=\"answer\"", answered.Html);
        Assert.Contains("Why does it happen to me?", answered.Text);
    }

    static async Task<PageRead> AskAsync(Patient patient, (string Name, string Value) asked)
    {
        var list = await patient.ReadAsync("/answers");
        return await patient.PostAsync("/ask", list.FormTo("/ask").Append(KeyValuePair.Create(asked.Name, asked.Value)));
    }
}
