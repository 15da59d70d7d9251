using EarHelp.Clinic.CheckIns;
using EarHelp.Clinic.Visits;
using EarHelp.Web.Editions;
using EarHelp.Web.Pages;
using EarHelp.Web.Security;
using EarHelp.Web.Turns;

namespace EarHelp.Web.CheckIns;

/// <summary>Words the message of a check-in: a link that opens the question, and one that stops the messages. Nothing in it speaks of health.</summary>
public sealed class CheckInMessage(MailSetup mail, VisitRecording visits, ServedEditions editions)
{
    /// <returns>Null if there is no edition, or the link could not be kept.</returns>
    public async ValueTask<OutgoingMessage?> WriteAsync(FollowUp followUp, CheckIn day, CancellationToken cancellation)
    {
        ArgumentNullException.ThrowIfNull(followUp);
        ArgumentNullException.ThrowIfNull(day);
        var link = Secret.New();
        if (editions.Current is not { } served
            || !await visits.LinkAsync(followUp.Conversation, Secret.NewIdentifier(), Talk.KeyOfCheckIn(link, day.Until), cancellation))
            return null;
        var words = Words.First(served);
        var stop = new Uri(mail.Address, CheckInPages.StopAddress(followUp.StopCode));
        string[] parts =
        [
            words["check-in mail hello"],
            words.Letter.Text("check-in mail open", ("link", new Uri(mail.Address, CheckInPages.LinkAddress(link)).AbsoluteUri), ("until", words.Letter.Moment(day.Until))),
            words.Letter.Text("check-in mail stop", ("link", stop.AbsoluteUri)),
        ];
        return new OutgoingMessage(NameOf(followUp, day), followUp.Email, words["check-in mail subject"], string.Join("\n\n", parts) + "\n", stop);
    }

    /// <summary>One for each patient and day, however often it is sent.</summary>
    static string NameOf(FollowUp followUp, CheckIn day) => Secret.HashOf(FormattableString.Invariant($"check-in:{followUp.Conversation}:{day.Name}"))[..32];
}
