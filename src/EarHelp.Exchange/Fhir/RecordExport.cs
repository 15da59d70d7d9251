using EarHelp.Clinic.Keeping;
using EarHelp.Conversation.Keeping;
using EarHelp.Conversation.Replies;
using EarHelp.Conversation.Taking;
using EarHelp.Conversation.Telling;
using EarHelp.Triage.Editions;
using NodaTime;

namespace EarHelp.Exchange.Fhir;

/// <summary>Writes kept conversations for a record system.</summary>
public sealed class RecordExport(TurnTaking taking, IRequestStore requests, IKeptConversations kept, TimeProvider clock)
{
    Instant Now => Instant.FromUnixTimeMilliseconds(clock.GetUtcNow().ToUnixTimeMilliseconds());

    /// <summary>The questions that answers belong to.</summary>
    /// <param name="isSigned">False: an example that no clinician of the clinic has signed.</param>
    /// <exception cref="RecordsUnwritableException">The edition lacks something.</exception>
    public static string Questions(Edition edition, LetterWriter words, bool isSigned) => FhirJson.Write(new QuestionnaireWriter(edition, words).Write(isSigned));

    /// <returns>As JSON; null if there is no such conversation, or nothing was told in it yet.</returns>
    /// <exception cref="RecordsUnwritableException">Its edition lacks something.</exception>
    public async Task<string?> OfAsync(string conversation, CancellationToken cancellation) =>
        await FindAsync(conversation, cancellation).ConfigureAwait(false) is { } found ? FhirJson.Write(ConversationBundle.Of([found], Now)) : null;

    /// <summary>Every conversation whose last outcome was told on a day at the clinic.</summary>
    /// <exception cref="RecordsUnwritableException">An edition lacks something.</exception>
    public async Task<string> OfDayAsync(LocalDate day, CancellationToken cancellation)
    {
        var ofDay = new List<ExportedConversation>();
        foreach (var conversation in await kept.ConversationsAsync(cancellation).ConfigureAwait(false))
        {
            if (await FindAsync(conversation, cancellation).ConfigureAwait(false) is { } found && found.Told.DecidedAt.InZone(found.Edition.Clinic.Zone).Date == day)
                ofDay.Add(found);
        }

        return FhirJson.Write(ConversationBundle.Of(ofDay, Now));
    }

    async Task<ExportedConversation?> FindAsync(string conversation, CancellationToken cancellation)
    {
        if (await taking.FindAsync(conversation, cancellation).ConfigureAwait(false) is not var (edition, state))
            return null;
        var history = await taking.HistoryAsync(conversation, cancellation).ConfigureAwait(false);
        var outcomes = history.SelectMany(t => t.Replies).OfType<Reply.Outcome>().Select(o => o.Told);
        var exported = new ExportedConversation(
            conversation, edition.Edition, edition.WriterOf(state), [.. outcomes], await requests.FindAsync(conversation, cancellation).ConfigureAwait(false));
        return exported.Outcomes.IsEmpty ? null : exported;
    }
}
