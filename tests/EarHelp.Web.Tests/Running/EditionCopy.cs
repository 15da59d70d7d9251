namespace EarHelp.Web.Tests.Running;

/// <summary>The sources of the edition in a folder of their own, which a test may change.</summary>
static class EditionCopy
{
    /// <returns>The folder, to be deleted.</returns>
    public static string Make()
    {
        var copy = Directory.CreateTempSubdirectory("earhelp-root-").FullName;
        foreach (var folder in (string[])["dialogs", "content"])
        {
            foreach (var file in Directory.EnumerateFiles(Path.Combine(Repository.Root, folder), "*", SearchOption.AllDirectories))
            {
                var to = Path.Combine(copy, Path.GetRelativePath(Repository.Root, file));
                Directory.CreateDirectory(Path.GetDirectoryName(to)!);
                File.Copy(file, to);
            }
        }

        return copy;
    }

    /// <summary>Another edition with the same rules: one notice reads otherwise.</summary>
    public static void Reword(string copy, string notice)
    {
        var words = Path.Combine(copy, "content", "en", "page-notices.md");
        File.WriteAllText(words, File.ReadAllText(words).Replace("This needs an answer.", notice, StringComparison.Ordinal));
    }
}
