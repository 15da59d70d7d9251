using System.Text.RegularExpressions;
using EarHelp.Architecture.Tests.Reading;
using Microsoft.CodeAnalysis;
using Microsoft.CodeAnalysis.CSharp;
using Microsoft.CodeAnalysis.CSharp.Syntax;

namespace EarHelp.Architecture.Tests.Shape;

public sealed partial class NameTests
{
    /// <summary>If no other name fits, the thing is two things.</summary>
    static readonly string[] Empty =
        ["Manager", "Managers", "Helper", "Helpers", "Util", "Utils", "Utility", "Utilities", "Processor", "Info", "Data", "Base", "Common", "Misc"];

    [Fact]
    public void A_type_is_called_what_the_clinic_calls_it()
    {
        var named = AllCode.SelectMany(f => f.AllTypes.Select(t => (File: f, Type: t, Name: CodeFile.NameOf(t))));

        var empty = named.Where(n => Words(n.Name).Intersect(Empty).Any() || n.Name == "Handler").Select(n => $"{n.File.SpotOf(n.Type)}: {n.Name}");

        Findings.None(empty);
    }

    [Fact]
    public void A_boolean_property_reads_as_a_claim()
    {
        string[] orders = ["Get", "Set", "Do", "Make", "Check", "Flag"];

        var orderly = Product.Types.Where(t => t.IsPublic)
            .SelectMany(t => t.GetProperties().Where(p => p.DeclaringType == t && p.PropertyType == typeof(bool)))
            .Where(p => orders.Contains(Words(p.Name).First()))
            .Select(p => $"{p.DeclaringType}.{p.Name}");

        Findings.None(orderly);
    }

    [Fact]
    public void A_method_that_can_be_awaited_says_so()
    {
        var unsaid = Product.Types.Where(t => t.IsInterface && t.IsPublic)
            .SelectMany(t => t.GetMethods())
            .Where(m => m.ReturnType.Name.StartsWith("Task", StringComparison.Ordinal) || m.ReturnType.Name.StartsWith("ValueTask", StringComparison.Ordinal))
            .Where(m => !m.Name.EndsWith("Async", StringComparison.Ordinal))
            .Select(m => $"{m.DeclaringType}.{m.Name}");

        Findings.None(unsaid);
    }

    [Fact]
    public void A_test_is_named_by_a_sentence()
    {
        var nameless = Repository.TestCode
            .SelectMany(f => f.Tree.DescendantNodes().OfType<MethodDeclarationSyntax>().Select(m => (File: f, Method: m)))
            .Where(t => t.Method.AttributeLists.SelectMany(l => l.Attributes).Any(a => a.Name.ToString() is "Fact" or "Theory"))
            .Where(t => t.Method.Identifier.ValueText.Count(c => c == '_') < 2)
            .Select(t => $"{t.File.SpotOf(t.Method)}: {t.Method.Identifier.ValueText}");

        Findings.None(nameless);
    }

    [Fact]
    public void No_test_is_skipped()
    {
        var skipped = Repository.TestCode
            .SelectMany(f => f.Tree.DescendantNodes().OfType<AttributeArgumentSyntax>().Select(a => (File: f, Argument: a)))
            .Where(t => t.Argument.NameEquals?.Name.Identifier.ValueText == "Skip")
            .Select(t => t.File.SpotOf(t.Argument));

        Findings.None(skipped);
    }

    [Fact]
    public void Product_code_lets_no_exception_vanish()
    {
        var swallowed = Repository.ProductCode
            .SelectMany(f => f.Tree.DescendantNodes().OfType<CatchClauseSyntax>().Select(c => (File: f, Catch: c)))
            .Where(t => t.Catch.Declaration is null && t.Catch.Block.Statements.Count == 0 && !t.Catch.Block.DescendantTrivia().Any(v => v.IsKind(SyntaxKind.SingleLineCommentTrivia)))
            .Select(t => t.File.SpotOf(t.Catch));

        Findings.None(swallowed);
    }

    static IEnumerable<CodeFile> AllCode => Repository.ProductCode.Concat(Repository.TestCode);

    static IEnumerable<string> Words(string name) => CamelCaseWord().Matches(name).Select(m => m.Value);

    [GeneratedRegex("[A-Z]+(?![a-z])|[A-Z][a-z0-9]*")]
    private static partial Regex CamelCaseWord();
}
