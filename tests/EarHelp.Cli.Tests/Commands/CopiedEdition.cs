using EarHelp.Cli.Tests.Deploying;

namespace EarHelp.Cli.Tests.Commands;

/// <summary>The edition of this repository in a folder of its own, without its example patients, to break in one place.</summary>
sealed class CopiedEdition : IDisposable
{
    readonly DirectoryInfo _folder = Directory.CreateTempSubdirectory("earhelp");

    public CopiedEdition()
    {
        foreach (var name in (string[])["dialogs", "content"])
        {
            foreach (var file in Directory.EnumerateFiles(Path.Combine(Repository.Root, name), "*", SearchOption.AllDirectories).Where(f => !f.Contains("examples", StringComparison.Ordinal)))
            {
                var copy = Path.Combine(_folder.FullName, Path.GetRelativePath(Repository.Root, file));
                Directory.CreateDirectory(Path.GetDirectoryName(copy)!);
                File.Copy(file, copy);
            }
        }
    }

    public string Root => _folder.FullName;

    public CopiedEdition With(string path, string from, string to)
    {
        var file = Path.Combine(Root, path);
        var text = File.ReadAllText(file);
        Assert.Contains(from, text, StringComparison.Ordinal);
        File.WriteAllText(file, text.Replace(from, to, StringComparison.Ordinal));
        return this;
    }

    public void Dispose() => _folder.Delete(recursive: true);
}
