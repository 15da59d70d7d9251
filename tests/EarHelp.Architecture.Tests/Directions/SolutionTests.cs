using EarHelp.Architecture.Tests.Reading;

namespace EarHelp.Architecture.Tests.Directions;

public sealed class SolutionTests
{
    [Fact]
    public void Holds_every_project()
    {
        var solution = Repository.Read("EarHelp.sln").Replace('\\', '/');

        Assert.All(Repository.Projects, p => Assert.Contains($"\"{p.Path}\"", solution, StringComparison.Ordinal));
    }

    [Fact]
    public void Keeps_versions_of_packages_in_one_file()
    {
        Findings.None(Repository.Projects.SelectMany(p => p.OwnVersions.Select(v => $"{p}: {v}")));
    }

    [Fact]
    public void Every_product_project_stands_in_the_list_of_arrows()
    {
        Assert.All(Repository.ProductProjects, p => Assert.Contains(p.Name, Arrows.MayKnow.Keys));
    }

    [Fact]
    public void Treats_every_warning_as_an_error()
    {
        var rules = Repository.Read("Directory.Build.props");

        Assert.Contains("<TreatWarningsAsErrors>true</TreatWarningsAsErrors>", rules, StringComparison.Ordinal);
        Assert.Contains("<Nullable>enable</Nullable>", rules, StringComparison.Ordinal);
        Assert.Contains("<CheckForOverflowUnderflow>true</CheckForOverflowUnderflow>", rules, StringComparison.Ordinal);
    }

    [Fact]
    public void Lets_no_project_weaken_the_build_rules()
    {
        string[] weakening = ["<TreatWarningsAsErrors>false", "<Nullable>disable", "<CheckForOverflowUnderflow>false", "<EnforceCodeStyleInBuild>false"];

        Assert.All(Repository.Projects, p => Assert.DoesNotContain(weakening, w => Repository.Read(p.Path).Contains(w, StringComparison.OrdinalIgnoreCase)));
    }
}
