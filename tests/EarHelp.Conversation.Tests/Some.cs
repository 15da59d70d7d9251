using EarHelp.Content;
using EarHelp.Content.Sources;
using EarHelp.Conversation.Stepping;
using EarHelp.Conversation.Turns;
using EarHelp.Triage.Editions;
using NodaTime;

namespace EarHelp.Conversation.Tests;

/// <summary>Values that do not matter to a test, and the edition of the repository, compiled once.</summary>
static class Some
{
    static readonly Lazy<ServedEdition> Shipped = new(Compile);

    /// <summary>A Tuesday morning at the clinic, which is open.</summary>
    public static Instant Morning { get; } = Instant.FromUtc(2026, 11, 24, 10, 0);

    public static ServedEdition Edition => Shipped.Value;

    public static Turn Turn(TurnContent content) => new("t", null, content);

    /// <summary>The same edition with another dialog.</summary>
    public static ServedEdition WithDialog(Func<Dialog, Dialog> change)
    {
        var dialog = change(Edition.Dialog);
        return new ServedEdition(Edition.Edition with { Dialog = dialog }, Triage.Assessments.Assessor.Build(dialog));
    }

    static ServedEdition Compile()
    {
        var root = SourceFolder.FindRoot(AppContext.BaseDirectory) ?? throw new InvalidOperationException("No folder above holds dialogs and content.");
        var compiled = EditionCompiler.Compile(SourceFolder.Read(root), CompileOptions.Plain);
        Assert.Empty(compiled.Problems);
        return new ServedEdition(compiled.Edition!, compiled.Assessor!);
    }
}
