using System.Collections.Immutable;
using System.Globalization;
using EarHelp.Conversation.Replies;
using EarHelp.Triage.Answers;
using EarHelp.Triage.Editions;
using EarHelp.Triage.Rules;
using EarHelp.Triage.Texts;
using NodaTime;

namespace EarHelp.Conversation.Telling;

/// <summary>Says how drops are used day by day, how much that is, and whether a bottle lasts.</summary>
sealed class DropsLetter(Dialog dialog, AnswerWords answers, ClinicWords clinic)
{
    /// <summary>Empty for an item that names no drops, and before its last ear.</summary>
    /// <param name="first">The day on which the plan begins.</param>
    public Prose After(AdviceTold item, ImmutableArray<AdviceTold> all, LocalDate first)
    {
        if (all.Last(a => a.Id == item.Id) != item || dialog.DropsPlans.FirstOrDefault(p => dialog.Advice[p.Advice].Id == item.Id) is not { } plan)
            return Prose.Empty;
        ImmutableArray<Ear?> ears = [.. all.Where(a => a.Id == item.Id).Select(a => a.Ear)];
        return ProseOf.Together(
            ProseOf.Heading(answers.Word("drops plan")),
            ears.Length > 1 ? Line("drops plan ears") : Prose.Empty,
            ProseOf.List(ears.SelectMany((ear, i) => Days(plan, ear, first.PlusDays(i * plan.Days.To)))),
            Line("drops plan end"),
            Line("drops plan total", ("drops", Range(plan.AmountFor(ears.Length).Drops)), ("millilitres", Amount(plan.AmountFor(ears.Length)))),
            Line(plan.BottleLasts(ears.Length) ? "drops plan lasts" : "drops plan short", ("bottle", Figure(plan.BottleMillilitres))));
    }

    IEnumerable<ImmutableArray<Inline>> Days(DropsPlan plan, Ear? ear, LocalDate first)
    {
        for (var day = 0; day < plan.Days.To; day++)
        {
            var date = clinic.Times.Date(first.PlusDays(day));
            yield return ProseOf.Inlines(clinic.Fill(
                ProseOf.LineWithBlanks(answers.Word(day < plan.Days.From ? "drops plan day" : "drops plan day if needed")),
                ear,
                name => name switch
                {
                    "day" => date,
                    "each" => Range(plan.EachTime),
                    "times" => Range(plan.TimesADay),
                    _ => null,
                }));
        }
    }

    Prose Line(string key, params (string Name, string Value)[] blanks) =>
        ProseOf.Line(clinic.Fill(answers.Word(key), null, name => Array.Find(blanks, b => b.Name == name).Value));

    string Range(Figures figures) => Range(Figure(figures.From), Figure(figures.To));

    /// <summary>To one place, the least rounded down and the most up: nobody runs short.</summary>
    string Amount(DropsAmount amount) =>
        Range(Figure(Math.Floor(amount.LeastMillilitres * 10) / 10), Figure(Math.Ceiling(amount.MostMillilitres * 10) / 10));

    string Range(string from, string to) =>
        from == to ? from : clinic.Fill(answers.Word("figures"), null, name => name == "from" ? from : name == "to" ? to : null);

    static string Figure(decimal number) => number.ToString(CultureInfo.InvariantCulture);
}
