using System.Collections.Immutable;
using EarHelp.Triage.Answers;
using EarHelp.Triage.Asking;
using EarHelp.Triage.Assessments;
using EarHelp.Triage.Editions;
using EarHelp.Triage.Facts;
using EarHelp.Triage.Rules;

namespace EarHelp.Triage.Tests.Assessments;

public sealed class TwoEarsTests
{
    const int Which = 0;
    const int Dull = 1;
    const int Hole = 2;

    static readonly Assessor Assessor = Assessor.Build(SmallDialog());

    [Fact]
    public void The_more_urgent_ear_decides()
    {
        var said = Assessor.Assess([Answers(Ear.Left, dull: "no", hole: "no"), Answers(Ear.Right, dull: "yes", hole: "no")]);

        Assert.Equal(1, said.Level);
        Assert.Equal([new MatchedRule(0, Ear.Right, true)], said.Rules.Where(r => r.Decides));
    }

    [Fact]
    public void Advice_names_its_ear_and_is_gated_by_that_ear()
    {
        var said = Assessor.Assess([Answers(Ear.Left, dull: "no", hole: "yes"), Answers(Ear.Right, dull: "no", hole: "no")]);

        Assert.Equal([new GivenAdvice(0, AdviceKind.ToDo, Ear.Right)], said.Advice.ToArray());
    }

    [Fact]
    public void Nothing_is_put_into_either_ear_while_the_other_is_urgent()
    {
        var said = Assessor.Assess([Answers(Ear.Left, dull: "no", hole: "no"), Answers(Ear.Right, dull: "yes", hole: "no")]);

        Assert.Empty(said.Advice);
    }

    [Fact]
    public void Nothing_is_put_in_while_it_is_unsure_which_ear_it_is() =>
        Assert.Empty(Assessor.Assess([Answers(Ear.Either, dull: "no", hole: "no")]).Advice);

    [Fact]
    public void Which_ear_is_asked_before_anything_about_an_ear()
    {
        ImmutableArray<Answer> nothing = [Answer.Unknown, Answer.Unknown, Answer.Unknown];

        var next = Assessor.NextScreen([new EarAnswers(Ear.Either, nothing)]);

        Assert.Equal("ears affected", next!.Screen);
        Assert.Contains(Assessor.Assess([new EarAnswers(Ear.Either, nothing)]).Open, o => o == new OpenFact(Which, null));
    }

    [Fact]
    public void Each_ear_is_asked_about_in_turn()
    {
        var both = new Answer.Asked(ValueSet.Of(2));
        ImmutableArray<Answer> start = [both, Answer.Unknown, Answer.Unknown];

        var first = Assessor.NextScreen([new EarAnswers(Ear.Left, start), new EarAnswers(Ear.Right, start)]);
        var second = Assessor.NextScreen([Answers(Ear.Left, dull: "no", hole: null), new EarAnswers(Ear.Right, start)]);

        Assert.Equal(("dull", Ear.Left), (first!.Screen, first.Ear));
        Assert.Equal(("dull", Ear.Right), (second!.Screen, second.Ear));
    }

    static EarAnswers Answers(Ear ear, string dull, string? hole) =>
        new(ear, [new Answer.Asked(ValueSet.Of(2)), YesNo(dull), hole is null ? Answer.Unknown : YesNo(hole)]);

    static Answer.Asked YesNo(string value) => new Answer.Asked(ValueSet.Of(value == "yes" ? 0 : 1));

    static Dialog SmallDialog()
    {
        var yesNo = new FactValues.Named(["yes", "no"]);
        ImmutableArray<Fact> facts =
        [
            Fact(Which, "ears affected", About.Person, new FactValues.Named(["left", "right", "both"])),
            Fact(Dull, "dull", About.Ear, yesNo),
            Fact(Hole, "hole", About.Ear, yesNo),
        ];
        var dullYes = new Condition(new FactReference(false, Dull), ValueSet.Of(0), "yes", default);
        var holeYes = new Condition(new FactReference(false, Hole), ValueSet.Of(0), "yes", default);
        return new Dialog(
            "small",
            9,
            facts,
            [],
            [.. facts.Select(f => new Screen(f.Index, f.Id, [f.Index], f.AskIn, f.About, default))],
            [Rule(0, [dullYes], 1), Rule(1, [], 2)],
            [],
            [new AdviceItem(0, "drops", AdviceKind.ToDo, About.Ear, [], [holeYes], 1, [], default)],
            [],
            [],
            [.. Enumerable.Range(0, 3).Select(i => new Level(i, $"level {i}", null, null, default))],
            [new Destination(0, "home", DestinationHours.Always, null, default)]);
    }

    static Rule Rule(int index, ImmutableArray<Condition> conditions, int level) =>
        new(index, $"R{index}", "t", conditions, level, [0], [], [], [], null, "", [], "high", [], default);

    static Fact Fact(int index, string id, About about, FactValues values) =>
        new(index, id, about, values, null, AskIn.Safety, new Worse.Towards(true), null, new RedFlag.Unmarked(), [], default);
}
