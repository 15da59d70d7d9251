using System.Collections.Concurrent;
using System.Collections.Immutable;
using EarHelp.Clinic.Keeping;
using EarHelp.Clinic.Requests;
using EarHelp.Clinic.Times;
using NodaTime;

namespace EarHelp.Clinic.Tests.Requests;

/// <summary>Keeps requests in memory, under one lock.</summary>
sealed class CollectingRequestStore : IRequestStore
{
    readonly Lock _gate = new();
    readonly ConcurrentDictionary<string, KeptRequest> _kept = new();

    /// <summary>Called before a request is put, as if another came first.</summary>
    public Action? BeforePut { get; set; }

    public bool IsConversationGone { get; set; }

    public int Puts { get; private set; }

    public ValueTask<RequestPut> PutAsync(VisitRequest request, ContactDetails? contact, CancellationToken cancellation)
    {
        var before = BeforePut;
        BeforePut = null;
        before?.Invoke();
        lock (_gate)
        {
            if (IsConversationGone)
                return ValueTask.FromResult(RequestPut.Gone);
            if ((_kept.GetValueOrDefault(request.Conversation)?.Request.Version ?? 0) != request.Version - 1)
                return ValueTask.FromResult(RequestPut.Stale);
            if (Taken(request.ChangedAt, request.Conversation).Any(t => request.TakenAt(request.ChangedAt).Any(t.Overlaps)))
                return ValueTask.FromResult(RequestPut.TimeTaken);
            _kept[request.Conversation] = new KeptRequest(request, contact);
            Puts++;
            return ValueTask.FromResult(RequestPut.Kept);
        }
    }

    public ValueTask<KeptRequest?> FindAsync(string conversation, CancellationToken cancellation) =>
        ValueTask.FromResult(_kept.GetValueOrDefault(conversation));

    public ValueTask<ImmutableArray<VisitTime>> TakenAsync(Instant now, string except, CancellationToken cancellation) =>
        ValueTask.FromResult<ImmutableArray<VisitTime>>([.. Taken(now, except)]);

    public ValueTask<ImmutableArray<KeptRequest>> WaitingAsync(CancellationToken cancellation) =>
        ValueTask.FromResult<ImmutableArray<KeptRequest>>([.. _kept.Values.Where(k => k.Request.State == RequestState.Waiting)]);

    public ValueTask<int> SweepRequestsAsync(long changedBeforeUnixMilliseconds, CancellationToken cancellation) =>
        ValueTask.FromResult(_kept.Values.Count(k => k.Request.ChangedAt.ToUnixTimeMilliseconds() < changedBeforeUnixMilliseconds && _kept.TryRemove(k.Request.Conversation, out _)));

    IEnumerable<VisitTime> Taken(Instant now, string except) =>
        _kept.Values.Where(k => k.Request.Conversation != except).SelectMany(k => k.Request.TakenAt(now));
}
