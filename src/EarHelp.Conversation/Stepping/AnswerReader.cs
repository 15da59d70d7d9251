using System.Collections.Immutable;
using System.Globalization;
using EarHelp.Conversation.Replies;
using EarHelp.Conversation.States;
using EarHelp.Conversation.Turns;
using EarHelp.Triage.Facts;
using NodaTime;
using NodaTime.Text;

namespace EarHelp.Conversation.Stepping;

/// <summary>Reads a chosen or typed value of one fact.</summary>
static class AnswerReader
{
    /// <summary>What was said, or the reply that says what is wrong with it.</summary>
    public static (Said? Said, Reply.Say? Fault) Read(ServedEdition edition, Fact fact, ChosenAnswer answer, Instant now)
    {
        if (answer.NotSure)
            return (Said.Unsure, null);
        var written = answer.Value?.Trim() ?? string.Empty;
        if (written.Length == 0)
            return Failed("nothing chosen");
        return fact.Values switch
        {
            FactValues.Named named => ReadNames(named, written),
            FactValues.Numbers numbers when fact.Counted is not null => ReadDate(edition, fact, numbers, written, now),
            FactValues.Numbers numbers => ReadNumber(numbers, written),
            _ => throw new System.Diagnostics.UnreachableException(),
        };
    }

    static (Said?, Reply.Say?) ReadNames(FactValues.Named named, string written)
    {
        var values = written.Split(',').Select(w => named.IndexOf(w.Trim())).ToArray();
        return values.Any(v => v is null)
            ? Failed("nothing chosen")
            : (new Said.Values(ValueSet.OfMany(values.Select(v => v!.Value))), null);
    }

    static (Said?, Reply.Say?) ReadNumber(FactValues.Numbers numbers, string written)
    {
        if (Ends(written) is not var (from, to))
            return Failed("number not understood");
        if (from < numbers.From || to > numbers.To || from > to)
            return Failed("number out of range", Blank("from", numbers.From), Blank("to", numbers.To));
        var set = numbers.Between(from, to);
        return set.IsEmpty ? Failed("number step", Blank("step", numbers.Step)) : (new Said.Values(set), null);
    }

    static (Said?, Reply.Say?) ReadDate(ServedEdition edition, Fact fact, FactValues.Numbers numbers, string written, Instant now)
    {
        var zone = edition.Edition.Clinic.Zone;
        var today = now.InZone(zone).Date;
        if (LocalDatePattern.Iso.Parse(written) is { Success: true } parsed)
        {
            var day = parsed.Value;
            if (day > today)
                return Failed("date in the future");
            var earliest = fact.Counted!.Unit == CountUnit.Days ? today.PlusDays(-(int)numbers.To) : today.PlusDays(-(int)(numbers.To / NodaConstants.HoursPerDay));
            if (day < earliest)
                return Failed("date too early", new Blank("from", $"date:{LocalDatePattern.Iso.Format(earliest)}"));
            if (fact.Counted.Unit == CountUnit.Days)
                return (new Said.Days(day, day), null);
            return (new Said.Moments(zone.AtStartOfDay(day).ToInstant(), Instant.Min(now, zone.AtStartOfDay(day.PlusDays(1)).ToInstant())), null);
        }

        if (Ends(written) is not var (from, to))
            return Failed("date not understood");
        if (from < numbers.From || to > numbers.To || from > to)
            return Failed("number out of range", Blank("from", numbers.From), Blank("to", numbers.To));
        return fact.Counted!.Unit == CountUnit.Days
            ? (new Said.Days(today.PlusDays(-(int)to), today.PlusDays(-(int)from)), null)
            : (new Said.Moments(now - Duration.FromHours((double)to), now - Duration.FromHours((double)from)), null);
    }

    static (decimal From, decimal To)? Ends(string written)
    {
        var ends = written.Split("..", 2);
        return decimal.TryParse(ends[0], NumberStyles.AllowDecimalPoint | NumberStyles.AllowLeadingSign, CultureInfo.InvariantCulture, out var from)
            && decimal.TryParse(ends[^1], NumberStyles.AllowDecimalPoint | NumberStyles.AllowLeadingSign, CultureInfo.InvariantCulture, out var to)
                ? (from, to)
                : null;
    }

    static Blank Blank(string name, decimal value) => new(name, value.ToString(CultureInfo.InvariantCulture));

    static (Said?, Reply.Say?) Failed(string text, params ImmutableArray<Blank> blanks) => (null, new Reply.Say(text, blanks));
}
