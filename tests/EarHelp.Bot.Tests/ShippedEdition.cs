using EarHelp.Content;
using EarHelp.Content.Sources;
using EarHelp.Conversation.Stepping;
using EarHelp.Conversation.Taking;
using EarHelp.Conversation.Withdrawing;

namespace EarHelp.Bot.Tests;

/// <summary>The edition in this repository, compiled once.</summary>
sealed class ShippedEdition : IEditionShelf
{
    static readonly Lazy<ServedEdition> Compiled = new(Compile);

    public ServedEdition Current => Compiled.Value;

    public Withdrawals Withdrawn { get; set; } = Withdrawals.None;

    public ValueTask<ServedEdition?> FindAsync(string editionId, CancellationToken cancellation) =>
        ValueTask.FromResult(editionId == Current.Edition.Id ? Current : null);

    static ServedEdition Compile()
    {
        var sources = SourceFolder.Read(SourceFolder.FindRoot(AppContext.BaseDirectory)!);
        var compiled = EditionCompiler.Compile(sources, CompileOptions.Plain);
        Assert.Empty(compiled.Problems);
        return new ServedEdition(compiled.Edition!, compiled.Assessor!);
    }
}
