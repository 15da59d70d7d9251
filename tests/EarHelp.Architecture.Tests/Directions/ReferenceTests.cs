using EarHelp.Architecture.Tests.Reading;

namespace EarHelp.Architecture.Tests.Directions;

public sealed class ReferenceTests
{
    public static TheoryData<string> Products => [.. Repository.ProductProjects.Select(p => p.Name)];

    [Theory]
    [MemberData(nameof(Products))]
    public void A_project_refers_only_inward(string name)
    {
        var project = Repository.ProductProjects.Single(p => p.Name == name);

        var outward = project.ReferencedProjects.Except(Arrows.MayKnow[name]);

        Findings.None(outward);
    }

    [Theory]
    [MemberData(nameof(Products))]
    public void A_built_project_uses_only_what_it_may_know(string name)
    {
        var assembly = Product.Assemblies.Single(a => Product.ProjectOf(a.GetName().Name!) == name);

        var outward = assembly.GetReferencedAssemblies()
            .Select(r => Product.ProjectOf(r.Name!))
            .Where(r => r.StartsWith("EarHelp", StringComparison.Ordinal))
            .Except(Arrows.MayKnow[name]);

        Findings.None(outward);
    }

    [Theory]
    [MemberData(nameof(Products))]
    public void An_outside_package_is_referenced_only_from_its_home(string name)
    {
        var project = Repository.ProductProjects.Single(p => p.Name == name);

        Findings.None(project.Packages.Where(p => !HasHomeIn(p, name)));
    }

    [Theory]
    [MemberData(nameof(Products))]
    public void An_outside_type_is_used_only_in_its_home(string name)
    {
        var assembly = Product.Assemblies.Single(a => Product.ProjectOf(a.GetName().Name!) == name);

        var strangers = assembly.GetReferencedAssemblies()
            .Select(r => Product.ProjectOf(r.Name!))
            .Where(r => !r.StartsWith("EarHelp", StringComparison.Ordinal))
            .Where(r => !Arrows.IsPlatform(r, name) && !HasHomeIn(r, name));

        Findings.None(strangers);
    }

    [Fact]
    public void The_list_of_arrows_has_no_circle()
    {
        foreach (var (project, known) in Arrows.MayKnow)
            Assert.All(known, k => Assert.DoesNotContain(project, Arrows.MayKnow[k]));
    }

    static bool HasHomeIn(string package, string project) =>
        Arrows.PackageHomes.Any(h => package.StartsWith(h.Starts, StringComparison.Ordinal) && h.Homes.Contains(project));
}
