using System.Collections.Immutable;

namespace EarHelp.Triage.Tables;

/// <summary>What happens if several rows of a decision table match (OMG DMN).</summary>
/// <param name="Letter">As written in the heading: <c>U</c>, <c>C+</c> …</param>
/// <param name="Name">The word that must stand beside the letter.</param>
/// <param name="Means">In words, for messages.</param>
public sealed record HitPolicy(string Letter, string Name, string Means)
{
    public static HitPolicy Unique { get; } = new("U", "unique", "at most one row matches");

    public static HitPolicy Any { get; } = new("A", "any", "all matching rows agree");

    public static HitPolicy Priority { get; } = new("P", "priority", "the most urgent row decides");

    public static HitPolicy First { get; } = new("F", "first", "the first matching row decides");

    public static HitPolicy RuleOrder { get; } = new("R", "rule order", "all matching rows, in the order of the table");

    public static HitPolicy OutputOrder { get; } = new("O", "output order", "all matching rows, in the order of the conclusion's values");

    public static HitPolicy Collect { get; } = new("C", "collect", "all matching rows, in any order");

    public static HitPolicy Sum { get; } = new("C+", "sum", "the sum of all matching rows");

    public static HitPolicy Least { get; } = new("C<", "least", "the least of all matching rows");

    public static HitPolicy Greatest { get; } = new("C>", "greatest", "the greatest of all matching rows");

    public static HitPolicy Count { get; } = new("C#", "count", "how many rows match");

    public static ImmutableArray<HitPolicy> All { get; } =
        [Unique, Any, Priority, First, RuleOrder, OutputOrder, Collect, Sum, Least, Greatest, Count];

    /// <summary>By its letter, or null.</summary>
    public static HitPolicy? Of(string letter) => All.FirstOrDefault(p => string.Equals(p.Letter, letter, StringComparison.OrdinalIgnoreCase));

    /// <summary>True if the rows' conclusions become one number.</summary>
    public bool Aggregates => this == Sum || this == Least || this == Greatest || this == Count;

    /// <summary>True if the conclusion's values need a declared order.</summary>
    public bool NeedsOrder => this == Priority || this == OutputOrder;
}
