using EarHelp.Architecture.Tests.Reading;
using Microsoft.CodeAnalysis.CSharp.Syntax;

namespace EarHelp.Architecture.Tests.Shape;

public sealed class FileTests
{
    const int MostLines = 300;
    const int MostTypes = 8;

    /// <summary>Folders that sort code by kind instead of by idea.</summary>
    static readonly string[] KindsOfCode = ["Models", "Interfaces", "Helpers", "Utils", "Services", "Managers", "Enums", "Exceptions", "Extensions"];

    [Fact]
    public void A_namespace_is_the_folder()
    {
        var elsewhere = AllCode.Where(f => NamespaceOf(f) is { } name && name != FolderAsNamespace(f)).Select(f => $"{f}: {NamespaceOf(f)}");

        Findings.None(elsewhere);
    }

    [Fact]
    public void A_namespace_is_file_scoped()
    {
        Findings.None(AllCode.Where(f => f.Tree.DescendantNodes().OfType<NamespaceDeclarationSyntax>().Any()));
    }

    [Fact]
    public void Every_file_but_the_start_of_a_program_has_a_namespace()
    {
        Findings.None(AllCode.Where(f => NamespaceOf(f) is null && f.TopLevelTypes.Any() && Path.GetFileName(f.Path) != "Program.cs"));
    }

    [Fact]
    public void A_file_holds_the_type_it_is_named_after()
    {
        var misnamed = AllCode.Where(f => f.TopLevelTypes.Any() && !f.TopLevelTypes.Select(CodeFile.NameOf).Contains(Concept(f)));

        Findings.None(misnamed);
    }

    [Fact]
    public void A_file_is_short()
    {
        Findings.None(AllCode.Where(f => f.LineCount > MostLines).Select(f => $"{f}: {f.LineCount} lines"));
    }

    [Fact]
    public void A_file_holds_one_concept()
    {
        Findings.None(AllCode.Where(f => f.TopLevelTypes.Count() > MostTypes).Select(f => $"{f}: {f.TopLevelTypes.Count()} types"));
    }

    [Fact]
    public void A_folder_is_an_idea_and_never_a_kind()
    {
        Findings.None(AllCode.Where(f => f.Path.Split('/').Intersect(KindsOfCode).Any()));
    }

    [Fact]
    public void No_file_has_regions_or_notes_of_unfinished_work()
    {
        string[] marks = ["#region", "TO" + "DO", "FIX" + "ME", "HA" + "CK:", "NotImplemented" + "Exception"];

        var marked = AllCode.Where(f => marks.Any(m => Repository.Read(f.Path).Contains(m, StringComparison.Ordinal))).Where(f => !IsThisFile(f));

        Findings.None(marked);
    }

    static IEnumerable<CodeFile> AllCode => Repository.ProductCode.Concat(Repository.TestCode);

    static bool IsThisFile(CodeFile file) => file.Path.EndsWith("Shape/FileTests.cs", StringComparison.Ordinal);

    /// <summary><c>Edition</c> for <c>Edition.cs</c> and for its part <c>Edition.Hash.cs</c>.</summary>
    static string Concept(CodeFile file) => Path.GetFileName(file.Path).Split('.')[0];

    static string? NamespaceOf(CodeFile file) =>
        file.Tree.DescendantNodes().OfType<BaseNamespaceDeclarationSyntax>().FirstOrDefault()?.Name.ToString();

    static string FolderAsNamespace(CodeFile file) => string.Join('.', file.Path.Split('/')[1..^1]);
}
