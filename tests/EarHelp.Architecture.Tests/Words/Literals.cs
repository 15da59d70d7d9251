using System.Text;
using EarHelp.Architecture.Tests.Reading;
using Microsoft.CodeAnalysis;
using Microsoft.CodeAnalysis.CSharp;
using Microsoft.CodeAnalysis.CSharp.Syntax;

namespace EarHelp.Architecture.Tests.Words;

/// <summary>A text that stands in C#, and where. Holes of an interpolated text count as one word, "…".</summary>
sealed record Literal(CodeFile File, SyntaxNode Node, string Text)
{
    public string Spot => File.SpotOf(Node);

    /// <summary>True where only a programmer, an operator or an author reads it.</summary>
    public bool IsForThoseWhoRunIt =>
        Node.Ancestors().Any(a => a switch
        {
            ThrowStatementSyntax or ThrowExpressionSyntax or AttributeSyntax => true,
            ObjectCreationExpressionSyntax made => made.Type.ToString().EndsWith("Exception", StringComparison.Ordinal),
            MethodDeclarationSyntax method => method.ReturnType.ToString().EndsWith("Exception", StringComparison.Ordinal),
            ConstructorInitializerSyntax => a.FirstAncestorOrSelf<TypeDeclarationSyntax>()?.Identifier.ValueText.EndsWith("Exception", StringComparison.Ordinal) == true,
            InvocationExpressionSyntax call => IsLogOrConsole(call.Expression.ToString()),
            _ => false,
        });

    static bool IsLogOrConsole(string callee) =>
        callee.StartsWith("Console.", StringComparison.Ordinal)
        || callee.Contains(".Log", StringComparison.Ordinal)
        || callee.StartsWith("Debug.", StringComparison.Ordinal)
        || callee.EndsWith("Exception.ThrowIf", StringComparison.Ordinal);
}

static class Literals
{
    public static IEnumerable<Literal> In(CodeFile file)
    {
        foreach (var node in file.Tree.DescendantNodes())
        {
            if (node is LiteralExpressionSyntax text && text.Token.Value is string value)
                yield return new Literal(file, node, value);
            else if (node is LiteralExpressionSyntax bytes && bytes.IsKind(SyntaxKind.Utf8StringLiteralExpression))
                yield return new Literal(file, node, bytes.Token.ValueText);
            else if (node is InterpolatedStringExpressionSyntax pieces)
                yield return new Literal(file, node, Joined(pieces));
        }
    }

    static string Joined(InterpolatedStringExpressionSyntax pieces)
    {
        var text = new StringBuilder();
        foreach (var piece in pieces.Contents)
            text.Append(piece is InterpolatedStringTextSyntax written ? written.TextToken.ValueText : "…");
        return text.ToString();
    }
}
