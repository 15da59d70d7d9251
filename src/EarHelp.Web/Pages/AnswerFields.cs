namespace EarHelp.Web.Pages;

/// <summary>The names of the fields in which a question is answered; a fact's id is part of the name.</summary>
static class AnswerFields
{
    /// <summary>Chosen values: one of the offered, or <see cref="NotSure"/>.</summary>
    internal const string Chosen = "a:";

    /// <summary>A number that is typed in.</summary>
    internal const string Number = "n:";

    internal const string Day = "day:";
    internal const string Month = "month:";
    internal const string Year = "year:";

    /// <summary>"None of these" of a checklist.</summary>
    internal const string None = "none";

    /// <summary>What is written in one's own words.</summary>
    internal const string OwnWords = "text";

    internal const string NotSure = "?";
}
