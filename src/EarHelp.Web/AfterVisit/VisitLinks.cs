namespace EarHelp.Web.AfterVisit;

/// <summary>The address by which a patient opens the conversation after a visit.</summary>
public static class VisitLinks
{
    public static string PathOf(string link) => "/back/" + link;
}
