using EarHelp.Clinic.Times;
using EarHelp.Web.Pages;

namespace EarHelp.Web.Desk;

/// <summary>Who sees a patient and in which room, for staff.</summary>
static class PlaceWords
{
    /// <summary>A moment, with both if the clinic says them.</summary>
    internal static string Of(Words words, VisitTime time) => time is { By: { } by, Room: { } room }
        ? words.Letter.Text("desk place of visit", ("moment", words.Letter.Moment(time.Start)), ("who", by), ("room", room))
        : words.Letter.Moment(time.Start);
}
