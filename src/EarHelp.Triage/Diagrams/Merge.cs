namespace EarHelp.Triage.Diagrams;

/// <summary>How the results of the members of a set of values become one result.</summary>
enum Merge
{
    /// <summary>The least end: the strictest decision, the most urgent rank.</summary>
    Least,

    /// <summary>The most urgent level; where two members are as urgent, the destinations of both.</summary>
    Places,

    /// <summary>True only if every member says so.</summary>
    Every,

    /// <summary>True if any member says so.</summary>
    Some,
}
