namespace EarHelp.Clinic.Figures;

/// <summary>Names of rows and columns that are no names of the edition.</summary>
public static class FigureNames
{
    public const string BeforeVisit = "before a visit";

    public const string AfterVisit = "after a visit";

    public const string OnTelephone = "on the telephone";

    /// <summary>The only column.</summary>
    public const string One = "count";

    public const string Yes = "yes";

    /// <summary>As a value: answered "not sure".</summary>
    public const string NotSure = "not sure";

    /// <summary>As a value: it did not matter, and so was not asked.</summary>
    public const string NotAsked = "not asked";
}
