using System.Collections.Immutable;
using EarHelp.Clinic.Figures;
using EarHelp.Clinic.Keeping;
using EarHelp.Conversation.Keeping;
using EarHelp.Conversation.Stepping;
using NodaTime;

namespace EarHelp.Web.Figures;

/// <summary>
/// Counts everything that is kept, in one walk that holds one conversation at a time; the counts are used again for a while, so that a large store
/// is walked seldom, however often the page is read.
/// </summary>
public sealed class FiguresCount(
    IKeptConversations kept, ITurnStore turns, IRequestStore requests, IVisitStore visits, IFollowUps followUps, ICallers callers, TimeProvider clock, ILogger<FiguresCount> log) : IDisposable
{
    /// <summary>Common practice: figures of a month need no minute.</summary>
    const int UsedForMinutes = 10;

    static readonly Duration UsedFor = Duration.FromMinutes(UsedForMinutes);

    readonly SemaphoreSlim _oneWalk = new(1, 1);
    CountedMonths? _last;

    public async Task<CountedMonths> FindAsync(ServedEdition edition, CancellationToken cancellation)
    {
        ArgumentNullException.ThrowIfNull(edition);
        await _oneWalk.WaitAsync(cancellation);
        try
        {
            var now = Instant.FromDateTimeOffset(clock.GetUtcNow());
            if (_last is not { } last || last.Edition != edition.Edition.Id || now - last.CountedAt >= UsedFor)
                _last = await WalkAsync(edition, now, cancellation);
            return _last;
        }
        finally
        {
            _oneWalk.Release();
        }
    }

    public void Dispose() => _oneWalk.Dispose();

    async Task<CountedMonths> WalkAsync(ServedEdition edition, Instant now, CancellationToken cancellation)
    {
        var months = new SortedDictionary<YearMonth, MonthFigures>();
        var clinic = edition.Edition.Clinic;
        MonthFigures MonthOf(Instant at)
        {
            var month = at.InZone(clinic.Zone).Date.ToYearMonth();
            return months.TryGetValue(month, out var found) ? found : months[month] = new MonthFigures();
        }

        var telephoned = (await callers.AllAsync(cancellation)).Select(c => c.Conversation).ToHashSet(StringComparer.Ordinal);
        var unreadable = 0;
        await foreach (var one in kept.ReadAsync(turns, records => records.IsEmpty ? null : CountedConversation.Of(records), cancellation))
        {
            if (one.Read is { } conversation)
                MonthOf(conversation.BeganAt).Add(conversation, telephoned.Contains(one.Conversation), clinic, now);
            unreadable += one.IsReadable ? 0 : 1;
        }

        foreach (var request in (await requests.WaitingAsync(cancellation)).Select(k => CountedRequest.Of(k.Request, now)))
            MonthOf(request.AskedAt).Add(request);
        foreach (var followUp in await followUps.AllAsync(cancellation))
        {
            if (await visits.FindAsync(followUp.Conversation, cancellation) is not { } visit)
                continue;
            foreach (var checkIn in CountedCheckIn.Of(edition.Edition, visit, followUp, now))
                MonthOf(visit.At).Add(checkIn);
        }

        if (unreadable > 0)
            FigureLog.Unreadable(log, unreadable);
        return new CountedMonths(edition.Edition.Id, now, months.ToImmutableSortedDictionary(m => m.Key, m => m.Value.Show(edition.Dialog)));
    }
}

/// <param name="Edition">Whose names they carry.</param>
/// <param name="Tables">By month; none for a month in which nothing began.</param>
public sealed record CountedMonths(string Edition, Instant CountedAt, ImmutableSortedDictionary<YearMonth, ImmutableArray<FigureTable>> Tables);

static partial class FigureLog
{
    [LoggerMessage(Level = LogLevel.Error, Message = "{Number} conversations cannot be read and are left out of the figures; earhelp affected names them.")]
    internal static partial void Unreadable(ILogger log, int number);
}
