using EarHelp.Clinic.CheckIns;
using EarHelp.Conversation.Taking;
using EarHelp.Conversation.Turns;
using EarHelp.Web.Editions;
using EarHelp.Web.Pages;
using EarHelp.Web.Security;
using EarHelp.Web.Turns;

namespace EarHelp.Web.CheckIns;

/// <summary>Words a message: a link that opens what it is about, and one that stops the messages. Nothing in it speaks of health.</summary>
public sealed class CheckInMessage(MailSetup mail, TurnTaking taking, ServedEditions editions)
{
    /// <returns>Null if there is no edition, or the link could not be kept.</returns>
    public async ValueTask<OutgoingMessage?> WriteAsync(DueLetter due, CancellationToken cancellation)
    {
        ArgumentNullException.ThrowIfNull(due);
        var link = Secret.New();
        var turn = new Turn(Secret.NewIdentifier(), null, new TurnContent.AskForLink());
        if (editions.Current is not { } served
            || await taking.TakeAsync(due.FollowUp.Conversation, turn, [Talk.KeyOfCheckIn(link, due.Message.Until)], cancellation) is not TurnTaken.Kept)
            return null;
        var words = Words.First(served);
        var stop = new Uri(mail.Address, CheckInPages.StopAddress(due.FollowUp.StopCode));
        var (subject, hello) = due.Message.Kind == MessageKind.AfterVisit ? ("check-in mail subject", "check-in mail hello") : ("check-in mail news subject", "check-in mail news hello");
        string[] parts =
        [
            words[hello],
            words.Letter.Text("check-in mail open", ("link", new Uri(mail.Address, CheckInPages.LinkAddress(link)).AbsoluteUri), ("until", words.Letter.Moment(due.Message.Until))),
            words.Letter.Text("check-in mail stop", ("link", stop.AbsoluteUri)),
        ];
        return new OutgoingMessage(NameOf(due), due.To, words[subject], string.Join("\n\n", parts) + "\n", stop);
    }

    /// <summary>One for each patient and message, however often it is sent.</summary>
    static string NameOf(DueLetter due) => Secret.HashOf($"check-in:{due.FollowUp.Conversation}:{due.Message.Name}")[..32];
}
