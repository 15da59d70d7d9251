namespace EarHelp.Web.AfterVisit;

/// <summary>The address by which a patient opens the conversation after a visit.</summary>
static class VisitLinks
{
    internal static string PathOf(string link) => "/back/" + link;
}
