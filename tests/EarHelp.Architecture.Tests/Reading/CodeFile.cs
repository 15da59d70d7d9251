using Microsoft.CodeAnalysis;
using Microsoft.CodeAnalysis.CSharp;
using Microsoft.CodeAnalysis.CSharp.Syntax;

namespace EarHelp.Architecture.Tests.Reading;

/// <summary>A C# file, parsed.</summary>
/// <param name="path">From the root, with forward slashes.</param>
sealed class CodeFile(string path)
{
    readonly Lazy<CompilationUnitSyntax> _tree = new(() => CSharpSyntaxTree.ParseText(Repository.Read(path)).GetCompilationUnitRoot());

    public string Path { get; } = path;

    /// <summary>The project's name, or the folder's for files of no project.</summary>
    public string Project { get; } = path.Split('/')[1];

    public CompilationUnitSyntax Tree => _tree.Value;

    public int LineCount => Tree.SyntaxTree.GetText().Lines.Count;

    public IEnumerable<MemberDeclarationSyntax> TopLevelTypes =>
        Tree.DescendantNodes(n => n is CompilationUnitSyntax or BaseNamespaceDeclarationSyntax)
            .OfType<MemberDeclarationSyntax>()
            .Where(m => m is BaseTypeDeclarationSyntax or DelegateDeclarationSyntax);

    public IEnumerable<MemberDeclarationSyntax> AllTypes =>
        Tree.DescendantNodes().OfType<MemberDeclarationSyntax>().Where(m => m is BaseTypeDeclarationSyntax or DelegateDeclarationSyntax);

    public static string NameOf(MemberDeclarationSyntax type) => type switch
    {
        BaseTypeDeclarationSyntax named => named.Identifier.ValueText,
        DelegateDeclarationSyntax named => named.Identifier.ValueText,
        _ => throw new ArgumentException($"{type.Kind()} is not a type", nameof(type)),
    };

    /// <summary><c>path:line</c>, as editors open it.</summary>
    public string SpotOf(SyntaxNode node) => $"{Path}:{node.GetLocation().GetLineSpan().StartLinePosition.Line + 1}";

    public override string ToString() => Path;
}
