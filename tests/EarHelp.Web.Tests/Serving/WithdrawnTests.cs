using EarHelp.Conversation.Signing;
using EarHelp.Conversation.Taking;
using EarHelp.Conversation.Turns;
using EarHelp.Web.Editions;
using EarHelp.Web.Tests.Running;
using Microsoft.Extensions.DependencyInjection;

namespace EarHelp.Web.Tests.Serving;

public sealed class WithdrawnTests
{
    const string AllOff = "We have taken these questions off.";
    const string OutcomeOff = "We have taken this part of our advice off.";
    const string Corrected = "These questions were corrected since you began.";

    [Fact]
    public async Task All_triage_is_off_at_once_over_a_restart_and_until_it_is_lifted_and_nothing_is_asked_twice()
    {
        await using var service = await RunningService.StartAsync();
        using var open = service.NewPatient();
        var page = await open.BeginAsync();
        var screen = page.Screen;

        Assert.IsType<AddedDeed.Added>(await WithdrawAsync(service, null));

        using var late = service.NewPatient();
        foreach (var read in new[] { await late.ReadAsync("/"), await open.ReadAsync("/letter"), await open.ReadAsync("/plan"), await open.ReadAsync("/answers") })
        {
            Assert.Contains(AllOff, read.Text);
            Assert.Contains("999", read.Text);
            Assert.Contains("01632 960150", read.Text);
            Assert.DoesNotContain("action=\"/answer\"", read.Html);
        }

        Assert.IsType<AddedDeed.Refused>(await WithdrawAsync(service, null));
        await service.StartAgainAsync();
        using var again = service.Again(open);
        Assert.Contains(AllOff, (await again.ReadAsync("/letter")).Text);

        Assert.IsType<AddedDeed.Added>(await LiftAsync(service, null));

        Assert.Equal(screen, (await again.ReadAsync("/letter")).Screen);
        Assert.Equal("lifted at last", service.Services.GetRequiredService<LedgerInForce>().Ledger.Deeds[^1].Reason);
    }

    [Fact]
    public async Task An_emergency_is_told_whatever_is_withdrawn()
    {
        await using var service = await RunningService.StartAsync();
        using var patient = service.NewPatient();
        var page = await patient.BeginAsync();
        await WithdrawAsync(service, null);

        var told = await patient.AnswerAsync(page, ("text", "I have slurred speech and cannot get my words out"));

        Assert.Contains("class=\"alarm\"", told.Html);
        Assert.Contains(AllOff, told.Text);
        Assert.IsType<AddedDeed.Refused>(await WithdrawAsync(service, "now"));
        Assert.IsType<AddedDeed.Refused>(await WithdrawAsync(service, "no such outcome"));
    }

    [Fact]
    public async Task A_page_that_appends_is_sent_to_what_stands_in_the_place()
    {
        await using var service = await RunningService.StartAsync();
        using var patient = service.NewPatient();
        var page = await patient.BeginAsync();
        await WithdrawAsync(service, null);

        var part = await patient.SendAsync("/answer", page.Hidden.Append(KeyValuePair.Create("none", "yes")), ("X-Part", "1"));

        Assert.Equal("/withdrawn", part.Headers.GetValues("X-Next").Single());
        Assert.Contains(AllOff, (await patient.ReadAsync("/withdrawn")).Text);
    }

    [Fact]
    public async Task One_outcome_is_taken_from_a_plan_and_from_who_comes_to_it_and_told_again_when_lifted()
    {
        await using var service = await RunningService.StartAsync();
        using var early = service.NewPatient();
        using var late = service.NewPatient();
        var plan = await early.ReachPlanAsync(await early.BeginAsync());
        var level = await LevelOfAsync(service, early);

        await WithdrawAsync(service, level);

        Assert.Contains(OutcomeOff, (await early.ReadAsync("/plan")).Text);
        var page = await late.BeginAsync();
        for (var screens = 0; screens < 45 && !page.Text.Contains(OutcomeOff, StringComparison.Ordinal); screens++)
            page = await late.GoOnAsync(page, new Dictionary<string, string[]>());
        Assert.Contains(OutcomeOff, page.Text);
        Assert.Contains(OutcomeOff, (await late.PostAsync("/go-on", page.FormTo("/go-on"))).Text);
        await LiftAsync(service, level);
        Assert.Equal(plan.Text, (await early.ReadAsync("/plan")).Text);
        Assert.True((await late.PostAsync("/go-on", (await late.ReadAsync("/withdrawn")).FormTo("/go-on"))).IsPlan);
        var replayed = await service.Services.GetRequiredService<TurnTaking>().ReplayAsync(await service.ConversationOfAsync(late), CancellationToken.None);
        Assert.Empty(replayed.Differing);
    }

    [Fact]
    public async Task After_a_corrected_edition_open_conversations_are_told_and_asked_only_what_changed()
    {
        await using var service = await RunningService.StartAsync(ownRoot: true);
        var first = service.Services.GetRequiredService<ServedEditions>().Current!.Edition.Id;
        await TwoPeople.SignAsync(service, first, TwoPeople.Always);
        await TwoPeople.PublishAsync(service, first);
        using var early = service.NewPatient();
        var walked = await early.WalkAsync(await early.BeginAsync());
        var level = await LevelOfAsync(service, early);
        var changed = walked[2].Screen;
        await WithdrawAsync(service, level);
        var file = Directory.EnumerateFiles(Path.Combine(service.Root, "content", "en", "questions"), "*.md")
            .First(f => File.ReadAllText(f).Contains($"## {changed}\n", StringComparison.Ordinal));
        var text = File.ReadAllText(file);
        var question = text.IndexOf('?', text.IndexOf($"## {changed}\n", StringComparison.Ordinal));
        File.WriteAllText(file, text.Insert(question, " now"));
        var second = await TwoPeople.KeepFilesAsync(service);
        await TwoPeople.SignAsync(service, second, TwoPeople.Always);

        Assert.IsType<AddedDeed.Added>(await TwoPeople.PublishAsync(service, second));
        Assert.Contains(OutcomeOff, (await early.ReadAsync("/plan")).Text);
        await LiftAsync(service, level);

        var told = await early.ReadAsync("/plan");
        Assert.Contains(Corrected, told.Text);
        Assert.Contains("We have corrected these questions", told.Text);
        var asked = await early.PostAsync("/go-on", told.FormTo("/go-on"));
        Assert.Equal(changed, asked.Screen);
        Assert.Contains(Corrected, (await early.ReadAsync("/letter")).Text);
        Assert.True((await early.GoOnAsync(asked, new Dictionary<string, string[]>())).IsPlan);
        var taking = service.Services.GetRequiredService<TurnTaking>();
        Assert.Empty((await taking.ReplayAsync(await service.ConversationOfAsync(early), CancellationToken.None)).Differing);
        Assert.Equal(second, (await taking.FindAsync(await service.ConversationOfAsync(early), CancellationToken.None))!.Value.State.EditionId);
    }

    static Task<AddedDeed> WithdrawAsync(RunningService service, string? outcome) =>
        TwoPeople.AddAsync(service, new Deed(DeedKind.Withdrawn, "", 0, "Al", "surgeon", "a complaint", Outcome: outcome));

    static Task<AddedDeed> LiftAsync(RunningService service, string? outcome) =>
        TwoPeople.AddAsync(service, new Deed(DeedKind.Lifted, "", 0, "Al", "surgeon", "lifted at last", Outcome: outcome));

    static async Task<string> LevelOfAsync(RunningService service, Patient patient)
    {
        var found = await service.Services.GetRequiredService<TurnTaking>().FindAsync(await service.ConversationOfAsync(patient), CancellationToken.None);
        return found!.Value.State.Told!.Level;
    }
}
