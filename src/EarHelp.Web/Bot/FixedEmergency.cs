using System.Collections.Immutable;
using EarHelp.Conversation.Replies;
using EarHelp.Conversation.Stepping;
using EarHelp.Conversation.Taking;
using EarHelp.Conversation.Telling;
using NodaTime;

namespace EarHelp.Web.Bot;

/// <summary>What a channel shows when a turn could not be saved or answered: never silence.</summary>
public sealed class FixedEmergency(IEditionShelf shelf, TimeProvider clock)
{
    const string PageKey = "emergency";
    const string NotSavedKey = "not saved";

    /// <param name="edition">Of the conversation; null: the one that is served.</param>
    /// <param name="emergencies">The emergency texts to which the lost turn led; they stand first.</param>
    public string Text(ServedEdition? edition, string? language, ImmutableArray<Reply> emergencies)
    {
        var told = edition ?? shelf.Current;
        var words = told.WriterOf(told.LanguageOr(language ?? string.Empty), isSelf: true);
        var now = Instant.FromDateTimeOffset(clock.GetUtcNow());
        var alarms = emergencies.SelectMany(e => words.Write(e, now)).ToImmutableArray();
        return string.Join(
            "\n\n",
            new[]
            {
                alarms.IsEmpty ? string.Empty : PlainText.Of(alarms, words).TrimEnd(),
                words.Text(NotSavedKey),
                PlainText.Of(words.Page(PageKey)),
            }.Where(t => t.Length > 0));
    }
}
