using System.Runtime.CompilerServices;

namespace Benchmarks.Figures;

/// <summary>Where the repository is; BenchmarkDotNet runs copies of this program from folders of its own.</summary>
static class Places
{
    public static string Root { get; } = FindRoot();

    static string FindRoot([CallerFilePath] string here = "")
    {
        foreach (var start in (string?[])[AppContext.BaseDirectory, Environment.CurrentDirectory, Path.GetDirectoryName(here)])
        {
            for (var folder = start is null ? null : new DirectoryInfo(start); folder is not null; folder = folder.Parent)
            {
                if (File.Exists(Path.Combine(folder.FullName, "EarHelp.sln")))
                    return folder.FullName;
            }
        }

        throw new InvalidOperationException("Run the benchmarks from inside the repository.");
    }
}
