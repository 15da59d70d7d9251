using System.Xml.Linq;

namespace EarHelp.Architecture.Tests.Reading;

/// <summary>A project file, with what it imports from its own folders.</summary>
sealed class ProjectFile
{
    readonly List<XDocument> _documents = [];

    public ProjectFile(string fullPath)
    {
        Path = System.IO.Path.GetRelativePath(Repository.Root, fullPath).Replace('\\', '/');
        Name = System.IO.Path.GetFileNameWithoutExtension(fullPath);
        Load(fullPath);
    }

    public string Path { get; }

    public string Name { get; }

    public IEnumerable<string> ReferencedProjects => Included("ProjectReference").Select(p => System.IO.Path.GetFileNameWithoutExtension(p));

    /// <summary>Packages by name, those that are only downloaded and referenced by file too.</summary>
    public IEnumerable<string> Packages => Included("PackageReference").Concat(Included("PackageDownload"));

    /// <summary>Versions that stand in the project file itself.</summary>
    public IEnumerable<string> OwnVersions =>
        _documents.SelectMany(d => d.Descendants("PackageReference")).Attributes().Where(a => a.Name.LocalName.StartsWith("Version", StringComparison.Ordinal)).Select(a => a.Value);

    public override string ToString() => Path;

    IEnumerable<string> Included(string kind) =>
        _documents.SelectMany(d => d.Descendants(kind)).Attributes("Include").Select(a => a.Value.Replace('\\', '/'));

    void Load(string fullPath)
    {
        var document = XDocument.Load(fullPath);
        _documents.Add(document);
        foreach (var import in document.Descendants("Import").Attributes("Project"))
        {
            var imported = System.IO.Path.Combine(System.IO.Path.GetDirectoryName(fullPath)!, import.Value);
            if (File.Exists(imported))
                Load(imported);
        }
    }
}
