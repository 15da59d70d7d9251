using System.Collections.Immutable;
using System.Globalization;
using EarHelp.Triage.Editions;
using NodaTime;

namespace EarHelp.Clinic.Figures;

/// <summary>Counts of one month, before anything of them is shown. Whole months only: two periods that overlap would give away what lies between.</summary>
public sealed class MonthFigures
{
    /// <summary>How long nobody came back before a conversation counts as left (common practice).</summary>
    const int LeftAfterHours = 24;

    readonly Dictionary<(FigureKind Kind, string? Of, string Name, string Column), int> _counts = [];

    public void Add(CountedConversation conversation, bool isOnTelephone, Triage.Editions.Clinic clinic, Instant now)
    {
        ArgumentNullException.ThrowIfNull(conversation);
        ArgumentNullException.ThrowIfNull(clinic);
        Count(FigureKind.Conversations, conversation.IsAfterVisit ? FigureNames.AfterVisit : FigureNames.BeforeVisit);
        if (isOnTelephone)
            Count(FigureKind.Conversations, FigureNames.OnTelephone);
        if (conversation.Level is { } level)
            Count(FigureKind.Outcomes, level);
        else if (conversation.OpenScreen is { } screen && now - conversation.LastAt > Duration.FromHours(LeftAfterHours))
            Count(FigureKind.Stops, screen);
        foreach (var fact in conversation.NotSure)
            Count(FigureKind.NotSure, fact);
        foreach (var nearest in conversation.NotFound)
            Count(FigureKind.NotFound, nearest);
        if (conversation.Level is not null && clinic.CountedAmong is { } among && conversation.Answers.Any(a => a.Fact == among && a.Value == FigureNames.Yes))
        {
            foreach (var (fact, value) in clinic.CountedAnswers.SelectMany(f => ValuesOf(conversation, f).Select(v => (f, v))))
                Count(FigureKind.Answers, value, of: fact);
        }
    }

    public void Add(CountedRequest request)
    {
        ArgumentNullException.ThrowIfNull(request);
        Count(FigureKind.AnswerTimes, request.Level, request.When.ToString());
    }

    public void Add(CountedCheckIn checkIn)
    {
        ArgumentNullException.ThrowIfNull(checkIn);
        Count(FigureKind.CheckIns, checkIn.Day.ToString(CultureInfo.InvariantCulture), checkIn.Result.ToString());
    }

    /// <summary>What may be shown. In lists that are as long as what was counted, rows under the least count are left out.</summary>
    public ImmutableArray<FigureTable> Show(Dialog dialog)
    {
        ArgumentNullException.ThrowIfNull(dialog);
        ImmutableArray<string> levels = [.. dialog.Levels.OrderBy(l => l.Rank).Select(l => l.Id)];
        var outcomes = Fixed(FigureKind.Outcomes, levels, [FigureNames.One]);
        var all = Fixed(FigureKind.Conversations, [FigureNames.BeforeVisit, FigureNames.AfterVisit, FigureNames.OnTelephone], [FigureNames.One]);
        return
        [
            WithoutTotalsOf(outcomes, all),
            outcomes,
            Fixed(FigureKind.AnswerTimes, levels, [.. Enum.GetNames<AnsweredWhen>()]),
            Listed(FigureKind.Stops),
            Listed(FigureKind.NotSure),
            Listed(FigureKind.NotFound),
            WithoutWhatGivesAway(Listed(FigureKind.Answers)),
            CheckIns(),
        ];
    }

    /// <summary>Every day has nearly the same total: a day with a count that is hidden is withheld as a whole.</summary>
    FigureTable CheckIns()
    {
        var days = _counts.Keys.Where(k => k.Kind == FigureKind.CheckIns).Select(k => k.Name).Distinct(StringComparer.Ordinal).OrderBy(d => int.Parse(d, CultureInfo.InvariantCulture));
        var table = Fixed(FigureKind.CheckIns, [.. days], [.. Enum.GetNames<CheckInResult>()]);
        return table with { Rows = [.. table.Rows.Select(r => r.Counts.Any(c => c.Rounded is null) ? r with { Counts = [.. r.Counts.Select(_ => ShownCount.Withheld)] } : r)] };
    }

    /// <summary>How many conversations there were is withheld if a level that is hidden could be worked out of it.</summary>
    static FigureTable WithoutTotalsOf(FigureTable outcomes, FigureTable all)
    {
        return HiddenParts.MayBeGivenAway([.. outcomes.Rows.Select(r => r.Counts[0])], isWhole: false)
            ? all with { Rows = [.. all.Rows.Select(r => IsTotal(r) ? r with { Counts = [ShownCount.Withheld] } : r)] }
            : all;

        static bool IsTotal(FigureRow row) => row.Name is FigureNames.BeforeVisit or FigureNames.AfterVisit;
    }

    /// <summary>The answers to one fact are a total of the answers to another: a fact with a value that could be worked out so is left out.</summary>
    FigureTable WithoutWhatGivesAway(FigureTable answers)
    {
        var facts = _counts.Keys.Where(k => k.Kind == FigureKind.Answers).GroupBy(k => k.Of!, StringComparer.Ordinal)
            .ToDictionary(f => f.Key, f => f.Select(k => ShownCount.Of(_counts[k])).ToImmutableArray(), StringComparer.Ordinal);
        if (facts.Count < 2)
            return answers;
        var from = facts.Values.Max(f => f.Sum(c => c.From));
        var to = facts.Values.Min(f => f.Sum(c => c.To));
        return answers with { Rows = [.. answers.Rows.Where(r => !HiddenParts.AreGivenAway(from, to, facts[r.Of!], isWhole: true))] };
    }

    /// <summary>Several ears with different answers count as each of them.</summary>
    static IEnumerable<string> ValuesOf(CountedConversation conversation, string fact) =>
        conversation.Answers.Where(a => a.Fact == fact).Select(a => a.Value ?? FigureNames.NotSure).Distinct(StringComparer.Ordinal).DefaultIfEmpty(FigureNames.NotAsked);

    void Count(FigureKind kind, string name, string column = FigureNames.One, string? of = null)
    {
        var key = (kind, of, name, column);
        _counts[key] = _counts.GetValueOrDefault(key) + 1;
    }

    FigureTable Fixed(FigureKind kind, ImmutableArray<string> rows, ImmutableArray<string> columns) =>
        new(kind, columns, [.. rows.Select(r => new FigureRow(null, r, [.. columns.Select(c => ShownCount.Of(_counts.GetValueOrDefault((kind, null, r, c))))]))]);

    FigureTable Listed(FigureKind kind) =>
        new(kind, [FigureNames.One], [.. _counts.Where(c => c.Key.Kind == kind)
            .Select(c => new FigureRow(c.Key.Of, c.Key.Name, [ShownCount.Of(c.Value)]))
            .Where(r => r.Counts[0].Rounded is not null)
            .OrderBy(r => r.Of, StringComparer.Ordinal).ThenByDescending(r => r.Counts[0].Rounded).ThenBy(r => r.Name, StringComparer.Ordinal)]);
}
