using EarHelp.Content;
using EarHelp.Conversation.Telling;
using EarHelp.Web.AfterVisit;
using EarHelp.Web.CheckIns;
using EarHelp.Web.Desk;
using EarHelp.Web.Figures;
using EarHelp.Web.Pages;
using EarHelp.Web.Staff;
using EarHelp.Web.Systems;
using EarHelp.Web.Visits;
using NodaTime;

namespace EarHelp.Web.Editions;

/// <summary>What an edition must hold for the conversation and the pages to have all their words.</summary>
public static class NeededByProgram
{
    /// <param name="today">The day at the clinic, or null: the end of the holidays is not looked at.</param>
    public static CompileOptions On(LocalDate? today) =>
        new(
            today,
            [.. NeededWords.Texts.Union(NeededVisitWords.Texts).Union(NeededStaffWords.Texts).Union(NeededDeskWords.Texts).Union(NeededRecordWords.Texts).Union(FigureWords.Needed).Union(NeededAftercareWords.Texts).Union(NeededSystemWords.Texts).Union(NeededCheckInWords.Texts).Union(RequiredWords.Interface)],
            [.. NeededWords.Pages.Union(NeededVisitWords.Pages).Union(NeededDeskWords.Pages).Union(RequiredWords.Pages)]);
}
