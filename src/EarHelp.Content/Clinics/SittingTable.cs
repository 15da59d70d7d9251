using EarHelp.Triage.Editions;

namespace EarHelp.Content.Clinics;

/// <summary>The table "seen by" of <c>content/clinic.md</c>: who sees patients in which room, and when.</summary>
static class SittingTable
{
    public const string Kind = "seen by";

    /// <summary>What is wrong with a row beside those before it, and how to mend it; null: nothing is.</summary>
    public static (string Fault, string Mend)? FaultOf(Sitting row, IEnumerable<Sitting> before, IEnumerable<OpenHours> open)
    {
        if (row.From >= row.To)
            return ($"On {row.Day} {row.By} ends before beginning.", "Write the earlier time first.");
        if (!open.Any(o => o.Day == row.Day && o.From <= row.From && row.To <= o.To))
            return ($"On {row.Day} the clinic is not open for all of these hours of {row.By}.", "Keep to a row of the table \"open\", or change that one.");
        return before.FirstOrDefault(b => b.Day == row.Day && b.From < row.To && row.From < b.To && (b.By == row.By || b.Room == row.Room)) is { } other
            ? ($"On {row.Day} {(other.By == row.By ? row.By : $"the room \"{row.Room}\"")} has two rows that overlap.", "Let them follow each other, or name another room or another person.")
            : null;
    }
}
