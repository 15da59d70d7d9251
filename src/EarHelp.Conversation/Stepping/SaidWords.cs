using EarHelp.Conversation.States;
using EarHelp.Triage.Facts;
using EarHelp.Understanding.Lexicons;
using NodaTime.Text;

namespace EarHelp.Conversation.Stepping;

/// <summary>Writes what was said as a chosen answer writes it.</summary>
static class SaidWords
{
    /// <summary>Null: not sure.</summary>
    public static string? Of(ServedEdition edition, Fact fact, Said said) => said switch
    {
        Said.Values values => WrittenValue.Of(fact, values.Set),
        Said.Days days when days.From == days.To => LocalDatePattern.Iso.Format(days.From),
        Said.Days days => $"{LocalDatePattern.Iso.Format(days.From)}..{LocalDatePattern.Iso.Format(days.To)}",
        Said.Moments moments => Moments(edition, moments),
        _ => null,
    };

    static string Moments(ServedEdition edition, Said.Moments moments)
    {
        var zone = edition.Edition.Clinic.Zone;
        var (from, to) = (moments.From.InZone(zone).Date, moments.To.InZone(zone).Date);
        return from == to ? LocalDatePattern.Iso.Format(from) : $"{LocalDatePattern.Iso.Format(from)}..{LocalDatePattern.Iso.Format(to)}";
    }
}
