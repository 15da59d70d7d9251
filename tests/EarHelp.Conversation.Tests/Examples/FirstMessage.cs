using System.Buffers;
using System.Globalization;
using EarHelp.Content.Examples;
using EarHelp.Triage.Editions;
using EarHelp.Triage.Facts;
using NodaTime;

namespace EarHelp.Conversation.Tests.Examples;

/// <summary>What an example patient would write if they told everything that is not usual, in the first plain phrase that the edition lists for each.</summary>
sealed class FirstMessage(Dialog dialog, Wording wording, LocalDate today)
{
    /// <summary>Marks of a pattern that is no plain phrase.</summary>
    static readonly SearchValues<char> Marks = SearchValues.Create("/().-@#,");

    public string Of(ExampleRun run)
    {
        var ear = run.Example.Answers.FirstOrDefault(a => a.Fact.Id == "ears affected") is { MayBe.Only: { } only } affected ? affected.Fact.Values.NameOf(only) : null;
        var where = ear switch
        {
            null => string.Empty,
            "both" => " in both ears",
            _ => $" in my {ear} ear",
        };
        return string.Join(". ", run.Example.Answers.Where(a => a.Fact.Clear is not { } clear || a.MayBe.Only != clear).Select(a => Clause(run, a, where)).OfType<string>());
    }

    string? Clause(ExampleRun run, ExampleAnswer answer, string where)
    {
        if (answer.Fact.Id == "age" && answer.MayBe.Only is { } age)
            return $"I am {answer.Fact.Values.NameOf(age)}";
        if (answer.Fact.Id == "ears affected")
            return "It is" + where;
        var phrase = wording.Speech.Facts.Where(f => f.Fact == answer.Fact.Index && f.Values is { } values && values.Equals(answer.MayBe))
            .SelectMany(f => f.Patterns).FirstOrDefault(p => !p.AsSpan().ContainsAny(Marks));
        if (phrase is null)
            return null;
        return "I have " + phrase + (answer.Fact.About == About.Ear ? where : string.Empty) + Since(run, answer.Fact);
    }

    /// <summary>When it began and how fast it grew, as far as the example says.</summary>
    string Since(ExampleRun run, Fact fact)
    {
        var began = DaysOf(run, fact, isCounted: true) switch
        {
            null => string.Empty,
            > DaysOfHalfAYear and var days => string.Create(CultureInfo.InvariantCulture, $" for {days} days"),
            var days => " since " + today.PlusDays(-days.Value).ToString("d MMMM", CultureInfo.InvariantCulture),
        };
        return began + (DaysOf(run, fact, isCounted: false) is > 0 and var pace ? string.Create(CultureInfo.InvariantCulture, $", slowly over {pace} days") : string.Empty);
    }

    const int DaysOfHalfAYear = 180;

    int? DaysOf(ExampleRun run, Fact fact, bool isCounted)
    {
        var time = dialog.Facts.FirstOrDefault(f => f.Values is FactValues.Numbers { Unit: "days" } && f.Counted is not null == isCounted && f.AppliesWhen.Any(c => !c.Of.IsNamedFact && c.Of.Index == fact.Index));
        return run.Example.Answers.FirstOrDefault(a => a.Fact.Index == time?.Index)?.MayBe.Only is { } only ? int.Parse(time!.Values.NameOf(only), CultureInfo.InvariantCulture) : null;
    }
}
