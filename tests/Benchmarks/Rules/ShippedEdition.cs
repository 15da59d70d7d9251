using Benchmarks.Figures;
using EarHelp.Content;
using EarHelp.Content.Sources;

namespace Benchmarks.Rules;

/// <summary>The edition that lies in the repository.</summary>
static class ShippedEdition
{
    public static Compilation Compile()
    {
        var compilation = EditionCompiler.Compile(SourceFolder.Read(Places.Root), CompileOptions.Plain);
        return compilation.Edition is null
            ? throw new InvalidOperationException($"The shipped edition has faults: {string.Join('\n', compilation.Problems.Take(5))}")
            : compilation;
    }
}
