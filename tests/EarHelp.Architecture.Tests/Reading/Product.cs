using System.Collections.Immutable;
using System.Reflection;
using System.Runtime.CompilerServices;

namespace EarHelp.Architecture.Tests.Reading;

/// <summary>The product's assemblies and what they declare.</summary>
static class Product
{
    public static ImmutableArray<Assembly> Assemblies { get; } =
        [.. Repository.ProductProjects.Select(p => Assembly.Load(AssemblyNameOf(p.Name)))];

    /// <summary>All types that a person wrote.</summary>
    public static IEnumerable<Type> Types =>
        Assemblies.SelectMany(a => a.GetTypes())
            .Where(t => t.Namespace?.StartsWith("EarHelp", StringComparison.Ordinal) == true)
            .Where(t => !t.IsDefined(typeof(CompilerGeneratedAttribute), inherit: false) && !t.Name.Contains('<', StringComparison.Ordinal));

    public static string AssemblyNameOf(string project) => project == "EarHelp.Cli" ? "earhelp" : project;

    public static string ProjectOf(string assembly) => assembly == "earhelp" ? "EarHelp.Cli" : assembly;
}
