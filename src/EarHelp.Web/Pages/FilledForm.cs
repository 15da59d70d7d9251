using System.Collections.Immutable;

namespace EarHelp.Web.Pages;

/// <summary>What a person put into a form that has to be filled in again: it is shown as it was, with what is wrong.</summary>
public sealed record FilledForm(IFormCollection Fields, ImmutableArray<FormFault> Faults)
{
    internal bool IsChosen(string field, string value) => Fields[field].Contains(value, StringComparer.Ordinal);

    internal string? Written(string field) => Fields[field].FirstOrDefault();

    internal string? FaultOf(string? fact) =>
        Faults.FirstOrDefault(f => string.Equals(f.Fact, fact, StringComparison.Ordinal))?.Message;
}

/// <param name="Fact">The fact that must be mended; null: the whole question.</param>
/// <param name="Message">What is wrong and how to mend it, in words.</param>
public sealed record FormFault(string? Fact, string Message);
