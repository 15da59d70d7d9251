using System.Diagnostics;

namespace EarHelp.Conformance.Npm;

/// <summary>Packages of the npm registry that serve as outside oracles, and the Node that runs them.</summary>
static class NpmPackages
{
    static readonly string[] Wanted =
    [
        "feelin@8.2.0", "commonmark-spec@0.31.2", "flesch-kincaid@2.0.1", "flesch@2.0.1", "smog-formula@2.0.1", "coleman-liau@2.0.1",
        "automated-readability@2.0.1", "syllable@5.0.1", "dmn-moddle@12.2.1", "ical.js@2.2.1", "node-ical@0.27.2",
        "fhir@4.12.0",
    ];

    static readonly Lazy<string> Folder = new(Install);

    /// <summary>A file of an installed package.</summary>
    public static string PathOf(string package, string file) => Path.Combine(Folder.Value, package, file);

    /// <summary>The Node inside the Microsoft.Playwright package: the machine's own may be too old.</summary>
    public static string Node => Path.Combine(AppContext.BaseDirectory, ".playwright", "node", "linux-x64", "node");

    static string Install()
    {
        var prefix = Path.Combine(FindRoot(), "artifacts", "npm");
        var modules = Path.Combine(prefix, "node_modules");
        if (Array.TrueForAll(Wanted, w => Directory.Exists(Path.Combine(modules, w.Split('@')[0]))))
            return modules;
        Directory.CreateDirectory(prefix);
        using var npm = Process.Start(new ProcessStartInfo("npm", $"install --prefix \"{prefix}\" {string.Join(' ', Wanted)} --no-package-lock --no-save --ignore-scripts --no-audit --no-fund"))!;
        npm.WaitForExit();
        Assert.Equal(0, npm.ExitCode);
        return modules;
    }

    static string FindRoot()
    {
        for (var folder = new DirectoryInfo(AppContext.BaseDirectory); folder is not null; folder = folder.Parent)
        {
            if (File.Exists(Path.Combine(folder.FullName, "EarHelp.sln")))
                return folder.FullName;
        }

        throw new InvalidOperationException($"No folder above {AppContext.BaseDirectory} holds EarHelp.sln.");
    }
}
