using System.Collections.Immutable;
using System.Diagnostics;
using System.Globalization;
using EarHelp.Clinic.Figures;
using EarHelp.Web.Pages;
using NodaTime;

namespace EarHelp.Web.Figures;

/// <summary>Says figures in words.</summary>
sealed class FigureWords(Words words)
{
    internal Words Of => words;

    internal string Hint(Instant countedAt) => words.Letter.Text("figures hint", ("least", Written(ShownCount.Least)), ("moment", words.Letter.Moment(countedAt)));

    internal string Month(YearMonth month) => words.Letter.Text("figures month", ("month", words["month " + Written(month.Month)]), ("year", Written(month.Year)));

    internal string Heading(FigureKind kind) => words[KeyOf(kind)];

    internal string Hint(FigureKind kind) =>
        words.Letter.Text(KeyOf(kind) + " hint", ("question", words.Edition.Clinic.CountedAmong is { } among ? words.Letter.Brief(among, null) : string.Empty));

    internal string Column(string column) => column == FigureNames.One ? words["figures count"] : Enum.TryParse<CheckInResult>(column, out var result) ? words["figures " + ColumnKeyOf(result)] : words["figures " + ColumnKeyOf(Enum.Parse<AnsweredWhen>(column))];

    internal string Row(FigureKind kind, FigureRow row) => kind switch
    {
        FigureKind.Outcomes or FigureKind.AnswerTimes => row.Name,
        FigureKind.Conversations => words["figures " + row.Name],
        FigureKind.Stops => words.Letter.BriefOfScreen(row.Name, null),
        FigureKind.NotSure => words.Letter.Brief(row.Name, null),
        FigureKind.NotFound => row.Name.Length > 0 ? row.Name : words["figures nothing near"],
        FigureKind.CheckIns => words.Letter.Text("figures day", ("number", row.Name)),
        FigureKind.Answers => words.Letter.Text("figures answer", ("question", words.Letter.Brief(row.Of!, null)), ("answer", Value(row.Of!, row.Name))),
        _ => throw new UnreachableException(),
    };

    internal string Count(ShownCount count) => count.IsWithheld ? words["figures withheld"] : count.Rounded is { } number ? Written(number) : words.Letter.Text("figures few", ("least", Written(ShownCount.Least)));

    internal static ImmutableArray<string> Needed { get; } =
    [
        "figures heading", "figures of", "figures hint", "figures month", "figures months", "figures none", "figures file", "figures kind", "figures count",
        "figures few", "figures withheld", "figures nothing near", "figures answer", "figures list empty",
        .. Enum.GetValues<FigureKind>().SelectMany(k => (string[])[KeyOf(k), KeyOf(k) + " hint"]),
        .. Enum.GetValues<AnsweredWhen>().Select(w => "figures " + ColumnKeyOf(w)),
        .. Enum.GetValues<CheckInResult>().Select(r => "figures " + ColumnKeyOf(r)),
        "figures day", "figures " + FigureNames.BeforeVisit, "figures " + FigureNames.AfterVisit, "figures " + FigureNames.OnTelephone,
        "figures " + FigureNames.NotSure, "figures " + FigureNames.NotAsked,
    ];

    string Value(string fact, string value) => value is FigureNames.NotAsked or FigureNames.NotSure ? words["figures " + value] : words.Letter.Value(fact, value);

    static string KeyOf(FigureKind kind) => kind switch
    {
        FigureKind.Conversations => "figures conversations",
        FigureKind.Outcomes => "figures outcomes",
        FigureKind.AnswerTimes => "figures answer times",
        FigureKind.Stops => "figures stops",
        FigureKind.NotSure => "figures unsure",
        FigureKind.NotFound => "figures not found",
        FigureKind.Answers => "figures answers",
        FigureKind.CheckIns => "figures check-ins",
        _ => throw new UnreachableException(),
    };

    static string ColumnKeyOf(CheckInResult result) => result switch
    {
        CheckInResult.Well => "well",
        CheckInResult.NotWell => "not well",
        CheckInResult.Silent => "silent",
        _ => throw new UnreachableException(),
    };

    static string ColumnKeyOf(AnsweredWhen when) => when switch
    {
        AnsweredWhen.FirstHalf => "first half",
        AnsweredWhen.SecondHalf => "second half",
        AnsweredWhen.TooLate => "too late",
        AnsweredWhen.NotYet => "not yet",
        AnsweredWhen.WithoutLimit => "without limit",
        _ => throw new UnreachableException(),
    };

    static string Written(int number) => number.ToString(CultureInfo.InvariantCulture);
}
