using EarHelp.Content;
using EarHelp.Content.Sources;
using EarHelp.Conversation.Stepping;

namespace EarHelp.Clinic.Tests.Visits;

/// <summary>The edition of the repository, compiled once.</summary>
static class SomeEdition
{
    static readonly Lazy<ServedEdition> Shipped = new(Compile);

    public static ServedEdition Served => Shipped.Value;

    static ServedEdition Compile()
    {
        var root = SourceFolder.FindRoot(AppContext.BaseDirectory) ?? throw new InvalidOperationException("No folder above holds dialogs and content.");
        var compiled = EditionCompiler.Compile(SourceFolder.Read(root), CompileOptions.Plain);
        Assert.Empty(compiled.Problems);
        return new ServedEdition(compiled.Edition!, compiled.Assessor!);
    }
}
