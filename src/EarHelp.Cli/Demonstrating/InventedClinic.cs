using EarHelp.Clinic.Requests;
using EarHelp.Clinic.Times;
using EarHelp.Clinic.Visits;
using EarHelp.Cli.Keeping;
using EarHelp.Conversation.Stepping;
using EarHelp.Conversation.Taking;
using EarHelp.Storage;
using EarHelp.Web.Staff;
using NodaTime;

namespace EarHelp.Cli.Demonstrating;

/// <summary>The parts of the clinic that the invented week goes through: the same as in the service, but for the clock.</summary>
sealed class InventedClinic
{
    public InventedClinic(IStore store, ServedEdition edition, MovedClock clock)
    {
        (Store, Edition, Clock) = (store, edition, clock);
        Shelf = new EditionShelf(edition, store);
        Turns = new TurnTaking(store, Shelf, clock);
        Talk = new HeldTalk(Turns, clock, edition);
        Requests = new VisitRequests(store.Requests, clock);
        Times = new TimesToOffer(store.Requests, new NothingElse(), clock);
        Recording = new VisitRecording(store.Visits, store.FollowUps, store, Turns, clock);
        Auditor = new Auditor(store.Audit, clock);
    }

    public IStore Store { get; }

    public ServedEdition Edition { get; }

    public MovedClock Clock { get; }

    public EditionShelf Shelf { get; }

    public TurnTaking Turns { get; }

    public HeldTalk Talk { get; }

    public VisitRequests Requests { get; }

    public TimesToOffer Times { get; }

    public VisitRecording Recording { get; }

    public Auditor Auditor { get; }

    /// <summary>Nobody at the invented clinic does anything but see the patients of the week.</summary>
    sealed class NothingElse : IBusyTimes
    {
        public ValueTask<System.Collections.Immutable.ImmutableArray<VisitTime>?> BetweenAsync(Instant from, Instant until, DateTimeZone zone, CancellationToken cancellation) =>
            ValueTask.FromResult<System.Collections.Immutable.ImmutableArray<VisitTime>?>([]);
    }
}
