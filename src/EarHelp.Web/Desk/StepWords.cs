using EarHelp.Clinic.Desk;
using EarHelp.Web.Pages;

namespace EarHelp.Web.Desk;

/// <summary>Says what staff did about a request, for staff.</summary>
static class StepWords
{
    internal static string Of(Words words, DeskStep step) => words.Letter.Text(
        KeyOf(step.Kind),
        ("moment", words.Letter.Moment(step.At)),
        ("time", step.Time is { } time ? PlaceWords.Of(words, time) : string.Empty),
        ("place", step.Place ?? string.Empty));

    static string KeyOf(DeskStepKind kind) => kind switch
    {
        DeskStepKind.Accepted => "desk step accepted",
        DeskStepKind.OfferedTime => "desk step offered",
        DeskStepKind.Telephoned => "desk step telephoned",
        DeskStepKind.NotReached => "desk step not reached",
        DeskStepKind.SentElsewhere => "desk step elsewhere",
        DeskStepKind.CalledOff => "desk step called off",
        DeskStepKind.DidNotCome => "desk step did not come",
        DeskStepKind.Escalated => "desk step escalated",
        DeskStepKind.NotWell => "desk step not well",
        _ => throw new System.Diagnostics.UnreachableException(),
    };
}
