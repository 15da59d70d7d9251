using System.Collections.Immutable;
using EarHelp.Cli.Commands;
using EarHelp.Content;
using EarHelp.Content.Sources;
using EarHelp.Triage.Editions;

namespace EarHelp.Cli.Keeping;

/// <summary>An edition by the name of its folder, or by its identifier in a data folder.</summary>
sealed class NamedEdition(string? data, Terminal terminal)
{
    /// <summary>Null after its faults were written.</summary>
    /// <exception cref="WrongUseException">There is neither such a folder nor such an edition.</exception>
    public async Task<Edition?> OpenAsync(string name, CancellationToken cancellation)
    {
        if (Directory.Exists(Path.GetFullPath(name, terminal.Folder)))
            return OpenedEdition.Open(name, terminal)?.Edition;
        if (data is null)
            throw new WrongUseException($"\"{name}\" is no folder here. If it is the identifier of an edition, say with --data where it is kept.");
        var store = OpenedStore.Open(KeptFolder.Find(data, null, terminal), terminal);
        await using (store.ConfigureAwait(false))
        {
            var pack = await store.Editions.FindAsync(name, cancellation).ConfigureAwait(false)
                ?? throw new WrongUseException($"no edition \"{name}\" is kept in that data folder; write its whole identifier.");
            var compiled = EditionCompiler.Compile(SourcePack.Unpack(pack), CompileOptions.InService);
            foreach (var problem in compiled.Problems)
                await terminal.Error.WriteLineAsync(problem.ToString()).ConfigureAwait(false);
            return compiled.Edition;
        }
    }

    /// <summary>The example patients of the first of the names that is a folder with some; a kept edition has none.</summary>
    public ImmutableArray<SourceFile> ExamplesOf(params IEnumerable<string> names) =>
        names.Select(n => Path.GetFullPath(n, terminal.Folder)).Where(Directory.Exists).Select(SourceFolder.ReadExamples).FirstOrDefault(e => !e.IsEmpty, []);
}
