using EarHelp.Triage.Facts;

namespace EarHelp.Cli.Describing;

/// <summary>Names for what kind of fact it is.</summary>
public static class FactWords
{
    public static string Kind(Fact fact) => fact switch
    {
        { Counted: not null } => "date",
        { IsYesNo: true } => "yes/no",
        { Values: FactValues.Numbers } => "number",
        _ => "named",
    };

    public static string Values(Fact fact) => fact switch
    {
        { Counted: { } counted, Values: FactValues.Numbers numbers } =>
            FormattableString.Invariant($"a date, or \"{counted.NumberId}\" from {numbers.From} to {numbers.To} {numbers.Unit}"),
        { Values: FactValues.Numbers numbers } => FormattableString.Invariant($"{numbers.From} to {numbers.To} {numbers.Unit}, in steps of {numbers.Step}"),
        { Values: FactValues.Named named } => string.Join(", ", named.Names),
        _ => throw new System.Diagnostics.UnreachableException(),
    };

    public static string AskIn(AskIn askIn) => askIn switch
    {
        Triage.Facts.AskIn.Form => "form",
        Triage.Facts.AskIn.Safety => "safety",
        Triage.Facts.AskIn.Story => "story",
        Triage.Facts.AskIn.BeforeAdvice => "before advice",
        _ => throw new System.Diagnostics.UnreachableException(),
    };
}
