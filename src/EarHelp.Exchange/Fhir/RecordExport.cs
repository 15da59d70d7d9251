using System.Collections.Immutable;
using EarHelp.Clinic.Keeping;
using EarHelp.Clinic.Visits;
using EarHelp.Conversation.Keeping;
using EarHelp.Conversation.Replies;
using EarHelp.Conversation.Taking;
using EarHelp.Conversation.Telling;
using EarHelp.Triage.Editions;
using NodaTime;

namespace EarHelp.Exchange.Fhir;

/// <summary>Writes kept conversations for a record system.</summary>
public sealed class RecordExport(TurnTaking taking, IRequestStore requests, IVisitStore visits, IKeptConversations kept, TimeProvider clock)
{
    Instant Now => Instant.FromUnixTimeMilliseconds(clock.GetUtcNow().ToUnixTimeMilliseconds());

    /// <summary>The questions that answers belong to.</summary>
    /// <param name="isSigned">False: an example that no clinician of the clinic has signed.</param>
    /// <exception cref="RecordsUnwritableException">The edition lacks something.</exception>
    public static string Questions(Edition edition, LetterWriter words, bool isSigned) => FhirJson.Write(new QuestionnaireWriter(edition, words).Write(isSigned));

    /// <returns>As JSON; null if there is no such conversation, or nothing was told in it yet.</returns>
    /// <exception cref="RecordsUnwritableException">Its edition lacks something.</exception>
    public async Task<string?> OfAsync(string conversation, CancellationToken cancellation) =>
        await FindAsync(conversation, await VisitsAsync(cancellation).ConfigureAwait(false), cancellation).ConfigureAwait(false) is { } found ? FhirJson.Write(ConversationBundle.Of([found], Now)) : null;

    /// <summary>Every conversation whose last outcome was told, or whose visit was, on a day at the clinic.</summary>
    /// <exception cref="RecordsUnwritableException">An edition lacks something.</exception>
    public async Task<string> OfDayAsync(LocalDate day, CancellationToken cancellation)
    {
        var ofDay = new List<ExportedConversation>();
        var all = await VisitsAsync(cancellation).ConfigureAwait(false);
        foreach (var conversation in await kept.ConversationsAsync(cancellation).ConfigureAwait(false))
        {
            if (await FindAsync(conversation, all, cancellation).ConfigureAwait(false) is { } found
                && found.Visits.Select(v => v.Visit.At).Append(found.Told.DecidedAt).Any(at => at.InZone(found.Edition.Clinic.Zone).Date == day))
                ofDay.Add(found);
        }

        return FhirJson.Write(ConversationBundle.Of(ofDay, Now));
    }

    /// <summary>By the conversation from which each was asked for.</summary>
    async Task<ILookup<string, Visit>> VisitsAsync(CancellationToken cancellation) =>
        (await visits.AllAsync(cancellation).ConfigureAwait(false)).Where(v => v.Before is not null).OrderBy(v => v.At).ToLookup(v => v.Before!, StringComparer.Ordinal);

    async Task<ExportedConversation?> FindAsync(string conversation, ILookup<string, Visit> all, CancellationToken cancellation)
    {
        if (await taking.FindAsync(conversation, cancellation).ConfigureAwait(false) is not var (edition, state))
            return null;
        var history = await taking.HistoryAsync(conversation, cancellation).ConfigureAwait(false);
        var outcomes = history.SelectMany(t => t.Replies).OfType<Reply.Outcome>().Select(o => o.Told);
        var exported = new ExportedConversation(
            conversation, edition.Edition, edition.WriterOf(state), [.. outcomes], await requests.FindAsync(conversation, cancellation).ConfigureAwait(false));
        if (exported.Outcomes.IsEmpty)
            return null;
        var seen = ImmutableArray.CreateBuilder<ExportedVisit>();
        foreach (var visit in all[conversation])
        {
            if (await taking.FindAsync(visit.Conversation, cancellation).ConfigureAwait(false) is var (ofVisit, after))
                seen.Add(new ExportedVisit(visit, ofVisit.Edition, ofVisit.WriterOf(after)));
        }

        return exported with { Visits = seen.ToImmutable() };
    }
}
