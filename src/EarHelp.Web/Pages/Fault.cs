namespace EarHelp.Web.Pages;

/// <summary>What a person is told when something is wrong.</summary>
/// <param name="Heading">Key of a short text.</param>
/// <param name="Text">Name of a page or key of a short text that says more; null: nothing more.</param>
public sealed record Fault(string Heading, string? Text);
