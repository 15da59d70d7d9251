namespace EarHelp.Triage.Texts;

/// <summary>Where an author wrote something.</summary>
/// <param name="File">Path from the root folder, with forward slashes.</param>
/// <param name="Line">From 1.</param>
/// <param name="Column">From 1.</param>
public readonly record struct SourceSpot(string File, int Line, int Column)
{
    public override string ToString() => $"{File}:{Line}:{Column}";
}
