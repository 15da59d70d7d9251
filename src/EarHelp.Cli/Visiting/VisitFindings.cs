using System.Collections.Immutable;
using EarHelp.Clinic.Visits;

namespace EarHelp.Cli.Visiting;

/// <summary>The findings of a visit as they are written at a terminal.</summary>
static class VisitFindings
{
    /// <summary>A finding with the ear as a program sends it: <c>left</c>, <c>right</c> or null.</summary>
    internal sealed record Written(string Finding, string? Ear);

    public static ImmutableArray<Written> Read(string? left, string? right, string? person) =>
        [.. Of(left, "left"), .. Of(right, "right"), .. Of(person, null)];

    /// <param name="fault">Name of a <see cref="VisitFault"/>, or null: the service said nothing that is known.</param>
    public static string Explain(string? fault) => fault switch
    {
        nameof(VisitFault.NotOffered) => "this clinic keeps no visits here. Add \"visit kept days: 90\" to content/clinic.md.",
        nameof(VisitFault.NothingTicked) => "nothing was found or done. Name at least one finding after --left, --right or --person.",
        nameof(VisitFault.UnknownFinding) => "one of the findings is not in the edition that is served. earhelp visit --list prints them.",
        nameof(VisitFault.WrongEar) => "a finding about an ear stands after --person, or one about the person after an ear. earhelp visit --list says which is which.",
        nameof(VisitFault.InTheFuture) => "the visit has not been yet. Look at --at.",
        nameof(VisitFault.TooLongAgo) => "the visit was longer ago than visits are kept (visit kept days in content/clinic.md). Look at --at.",
        nameof(VisitFault.WrongEmail) => "no message can reach the address after --email. Write it like mo@example.org, or leave it out.",
        nameof(VisitFault.UnknownRequest) => "there is no conversation like the one after --asked-in.",
        _ => "the visit was not saved. Nothing of it is kept; try again, and look at the service's log.",
    };

    static IEnumerable<Written> Of(string? names, string? ear) =>
        (names ?? string.Empty).Split(',', StringSplitOptions.RemoveEmptyEntries | StringSplitOptions.TrimEntries).Distinct().Select(n => new Written(n, ear));
}
