using EarHelp.Clinic.CheckIns;
using EarHelp.Clinic.Figures;
using EarHelp.Clinic.Tests.Visits;
using EarHelp.Clinic.Visits;
using EarHelp.Triage.Editions;
using NodaTime;

namespace EarHelp.Clinic.Tests.Figures;

public sealed class CountedCheckInTests
{
    static readonly Edition Asking = SomeEdition.Served.Edition with
    {
        Clinic = SomeEdition.Served.Edition.Clinic with { CheckInDays = [1, 3], MessagesFrom = new LocalTime(9, 0), MessagesTo = new LocalTime(19, 0) },
    };

    static readonly Instant Seen = Instant.FromUtc(2026, 11, 23, 15, 0);

    static readonly Visit Visit = new("after", Asking.Id, Seen, "R. Adair", [new SeenFinding("looked only", null)], null);

    [Fact]
    public void A_day_counts_once_it_is_answered_or_over()
    {
        var asked = new FollowUp("after", 1, "", "stop");
        var answered = asked.Replied(new CheckInReply(1, Seen + Duration.FromDays(1), false));

        Assert.Empty(Of(asked, 2));
        Assert.Equal([new CountedCheckIn(1, CheckInResult.NotWell)], Of(answered, 2));
        Assert.Equal([new CountedCheckIn(1, CheckInResult.NotWell), new CountedCheckIn(3, CheckInResult.Silent)], Of(answered, 9));
    }

    [Fact]
    public void A_day_with_a_small_count_is_withheld_as_a_whole()
    {
        var month = new MonthFigures();
        for (var i = 0; i < 20; i++)
        {
            month.Add(new CountedCheckIn(1, CheckInResult.Well));
            month.Add(new CountedCheckIn(3, i % 2 == 0 ? CheckInResult.Well : i % 4 == 1 ? CheckInResult.NotWell : CheckInResult.Silent));
        }

        month.Add(new CountedCheckIn(1, CheckInResult.NotWell));

        var rows = month.Show(SomeEdition.Served.Dialog).Single(t => t.Kind == FigureKind.CheckIns).Rows;
        Assert.All(rows.Single(r => r.Name == "1").Counts, c => Assert.True(c.IsWithheld));
        Assert.Equal([10, 5, 5], rows.Single(r => r.Name == "3").Counts.Select(c => c.Rounded ?? 0));
    }

    static List<CountedCheckIn> Of(FollowUp followUp, int days) => [.. CountedCheckIn.Of(Asking, Visit, followUp, Seen + Duration.FromDays(days))];
}
