using System.Collections.Immutable;
using EarHelp.Clinic.CheckIns;
using EarHelp.Clinic.Keeping;
using EarHelp.Clinic.Requests;
using EarHelp.Conversation.Keeping;
using EarHelp.Conversation.Taking;
using EarHelp.Conversation.Turns;
using EarHelp.Triage.Editions;
using NodaTime;

namespace EarHelp.Clinic.Visits;

/// <summary>Records a visit: it begins the conversation for the time after it, which knows what was found.</summary>
public sealed class VisitRecording(IVisitStore visits, IFollowUps followUps, ITurnStore turns, TurnTaking taking, TimeProvider clock)
{
    /// <summary>The first turn of the conversation: its second sending is the same turn.</summary>
    const string FirstTurn = "visit";

    /// <summary>To the millisecond, as it is kept.</summary>
    Instant Now => Instant.FromUnixTimeMilliseconds(clock.GetUtcNow().ToUnixTimeMilliseconds());

    /// <param name="visit">With an identifier that the caller made: the same one sent twice is one visit.</param>
    /// <param name="edition">The one that is served, whose findings were offered.</param>
    /// <param name="followUp">How the patient is asked after it; of its conversation, in its first version.</param>
    /// <param name="link">Opens the conversation once; given to the patient.</param>
    /// <returns>Null: it is recorded, and the link opens it.</returns>
    public async ValueTask<VisitFault?> RecordAsync(Visit visit, FollowUp followUp, Edition edition, string language, ConversationKey link, CancellationToken cancellation)
    {
        ArgumentNullException.ThrowIfNull(visit);
        ArgumentNullException.ThrowIfNull(followUp);
        ArgumentNullException.ThrowIfNull(edition);
        if (followUp.Email.Length > 0 && !ContactCheck.IsEmail(followUp.Email))
            return VisitFault.WrongEmail;
        if (VisitFacts.FaultOf(edition, visit.Findings, visit.At, Now) is { } fault)
            return fault;
        try
        {
            if (visit.Before is { } before && (await turns.LoadAsync(before, cancellation).ConfigureAwait(false)).IsEmpty)
                return VisitFault.UnknownRequest;
            if (await visits.FindAsync(visit.Conversation, cancellation).ConfigureAwait(false) is { } earlier)
                return await AgainAsync(earlier, visit, followUp, link, cancellation).ConfigureAwait(false);
            return await BeginAsync(visit, followUp, edition, language, link, cancellation).ConfigureAwait(false) ? null : VisitFault.NotSaved;
        }
        catch (StoreFailedException)
        {
            return VisitFault.NotSaved;
        }
    }

    /// <summary>Keeps a new version of a record, and tells the conversation after the visit what counts now.</summary>
    /// <param name="version">The one that the clinician had before them.</param>
    /// <param name="turn">Identifier of the turn that tells it.</param>
    /// <param name="reason">Why; needed where something that closes a way is taken back.</param>
    /// <returns>Null: it is kept and told. After <see cref="VisitFault.NotSaved"/> the same may be sent again.</returns>
    public async ValueTask<VisitFault?> CorrectAsync(
        string conversation, int version, Instant at, string by, ImmutableArray<SeenFinding> findings, string reason, string turn, CancellationToken cancellation)
    {
        try
        {
            if (await visits.FindAsync(conversation, cancellation).ConfigureAwait(false) is not { } kept
                || await taking.FindAsync(conversation, cancellation).ConfigureAwait(false) is not var (served, _))
                return VisitFault.UnknownVisit;
            var edition = served.Edition;
            if (VisitFacts.FaultOf(edition, findings, at, Now) is { } fault)
                return fault;
            var next = kept.Corrected(edition.Id, at, by, findings, new Correction(Now, reason));
            if (kept.Version == version + 1 && kept.By == by && kept.SaysTheSame(next))
                return await TellAsync(kept, turn, cancellation).ConfigureAwait(false) ? null : VisitFault.NotSaved;
            if (kept.Version != version)
                return VisitFault.CorrectedMeanwhile;
            if (kept.SaysTheSame(next))
                return VisitFault.NothingChanged;
            if (reason.Length == 0 && VisitFacts.IsTakenBack(edition, kept, next))
                return VisitFault.NoReason;
            if (!await visits.CorrectAsync(next, cancellation).ConfigureAwait(false))
                return VisitFault.CorrectedMeanwhile;
            return await TellAsync(next, turn, cancellation).ConfigureAwait(false) ? null : VisitFault.NotSaved;
        }
        catch (Exception failure) when (failure is StoreFailedException or EditionGoneException)
        {
            return VisitFault.NotSaved;
        }
    }

    /// <summary>Tells every conversation that does not know yet what was corrected: a service was cut off in between.</summary>
    /// <param name="newTurn">Makes identifiers of turns.</param>
    public async ValueTask TellCorrectedAsync(Func<string> newTurn, CancellationToken cancellation)
    {
        ArgumentNullException.ThrowIfNull(newTurn);
        foreach (var visit in (await visits.AllAsync(cancellation).ConfigureAwait(false)).Where(v => v.Version > 1))
            await TellAsync(visit, newTurn(), cancellation).ConfigureAwait(false);
    }

    /// <summary>A new link for a visit whose link was lost or used up.</summary>
    /// <returns>False if there is no such visit, or if it could not be saved.</returns>
    public async ValueTask<bool> LinkAsync(string conversation, string turn, ConversationKey link, CancellationToken cancellation) =>
        await visits.FindAsync(conversation, cancellation).ConfigureAwait(false) is not null
        && await taking.TakeAsync(conversation, new Turn(turn, null, new TurnContent.AskForLink()), [link], cancellation).ConfigureAwait(false) is TurnTaken.Kept;

    async ValueTask<bool> TellAsync(Visit visit, string turn, CancellationToken cancellation)
    {
        if (await taking.FindAsync(visit.Conversation, cancellation).ConfigureAwait(false) is not var (served, state))
            return false;
        if (state.RecordVersion >= visit.Version)
            return true;
        var anew = new TurnContent.RecordedAnew(visit.Version, VisitFacts.Of(served.Edition, visit.Findings, visit.At));
        return await taking.TakeAsync(visit.Conversation, new Turn(turn, null, anew), [], cancellation).ConfigureAwait(false) is TurnTaken.Kept kept && kept.State.RecordVersion >= visit.Version;
    }

    /// <summary>The same form sent twice is one visit, with a new link; another one is refused, so that nobody believes it was recorded.</summary>
    async ValueTask<VisitFault?> AgainAsync(Visit earlier, Visit visit, FollowUp followUp, ConversationKey link, CancellationToken cancellation)
    {
        if (earlier.At != visit.At || !earlier.Findings.SequenceEqual(visit.Findings))
            return VisitFault.RecordedOtherwise;
        var asked = await followUps.FindAsync(visit.Conversation, cancellation).ConfigureAwait(false);
        if (asked is not null && asked.Email != followUp.Email)
            return VisitFault.RecordedOtherwise;
        if (asked is null && !await followUps.PutAsync(followUp, cancellation).ConfigureAwait(false))
            return VisitFault.NotSaved;
        return await LinkAsync(visit.Conversation, link.Hash, link, cancellation).ConfigureAwait(false) ? null : VisitFault.NotSaved;
    }

    async ValueTask<bool> BeginAsync(Visit visit, FollowUp followUp, Edition edition, string language, ConversationKey link, CancellationToken cancellation)
    {
        var begin = new TurnContent.Begin(language) { Recorded = VisitFacts.Of(edition, visit.Findings, visit.At) };
        if (await taking.TakeAsync(visit.Conversation, new Turn(FirstTurn, null, begin), [link], cancellation).ConfigureAwait(false) is not TurnTaken.Kept kept)
            return false;
        if (kept is { Number: 1, IsRepeated: false } && kept.Edition.Edition.Id == edition.Id)
            return await visits.PutAsync(visit, cancellation).ConfigureAwait(false) && await followUps.PutAsync(followUp, cancellation).ConfigureAwait(false);

        // Another edition came into force in between, or an attempt before this one ended half-way: nothing of it may be relied on.
        if (kept.Number == 1)
        {
            await turns.EraseAsync(visit.Conversation, cancellation).ConfigureAwait(false);
            taking.Forget(visit.Conversation);
        }

        return false;
    }
}
