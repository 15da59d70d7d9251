namespace EarHelp.Web.Pages;

/// <summary>What a plan says about a visit here.</summary>
public enum VisitInPlan
{
    /// <summary>Nothing: the clinic is not the place, or could not do it in time.</summary>
    None,

    Offered,

    /// <summary>The person has asked for one.</summary>
    Asked,

    /// <summary>The clinic has the answers of a person who is not well after a visit.</summary>
    NotWell,

    /// <summary>The clinic has said something about it, which may differ from the plan.</summary>
    Answered,
}
