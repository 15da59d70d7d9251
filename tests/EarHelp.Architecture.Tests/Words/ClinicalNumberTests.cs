using System.Globalization;
using System.Text.RegularExpressions;
using EarHelp.Architecture.Tests.Reading;
using Microsoft.CodeAnalysis;
using Microsoft.CodeAnalysis.CSharp;
using Microsoft.CodeAnalysis.CSharp.Syntax;

namespace EarHelp.Architecture.Tests.Words;

/// <summary>
/// No clinical number is in code. A number other than 0 and 1 is suspect if the statement it stands in names something
/// clinical (an age, a sign, a medicine), or if it makes a length of minutes, hours, days or weeks. What is no
/// clinical limit stands in a list with its reason.
/// </summary>
public sealed partial class ClinicalNumberTests
{
    /// <summary>Lengths of time and counts that belong to the running of the service and to no patient.</summary>
    static readonly (string File, string Because)[] NotClinical =
    [
        ("src/EarHelp.Web/Bot/TokenCheck.cs", "how far an issuer's clock may be from ours"),
        ("src/EarHelp.Exchange/Calendars/BusyCalendar.cs", "how far a calendar is read past the span, since its zones are not the clinic's"),
        ("src/EarHelp.Clinic/CheckIns/FollowUp.cs", "after how long a sender of messages is believed to be cut off"),
        ("src/EarHelp.Web/Visits/BusyFeed.cs", "how long a calendar that was fetched counts"),
    ];

    [Fact]
    public void No_product_code_holds_a_clinical_number()
    {
        var suspects = Repository.ProductCode
            .Where(f => !NotClinical.Any(n => n.File == f.Path))
            .SelectMany(f => Numbers(f).Where(n => IsSuspect(n)).Select(n => $"{f.SpotOf(n)}: {StatementOf(n).ToString().ReplaceLineEndings(" ")}"));

        Findings.None(suspects);
    }

    [Fact]
    public void Every_exemption_is_still_needed()
    {
        var idle = NotClinical.Where(n => !Repository.ProductCode.Any(f => f.Path == n.File && Numbers(f).Any(IsSuspect)));

        Findings.None(idle);
    }

    [Theory]
    [InlineData("if (age >= 18) return;", true)]
    [InlineData("if (temperature > 38.0m) return;", true)]
    [InlineData("var limit = TimeSpan.FromHours(24);", true)]
    [InlineData("var from = rows[2];", false)]
    [InlineData("var page = pages[18];", false)]
    public void The_rule_knows_a_clinical_number(string statement, bool isOne)
    {
        var tree = CSharpSyntaxTree.ParseText($"void M() {{ {statement} }}").GetRoot();

        Assert.Equal(isOne, tree.DescendantNodes().OfType<LiteralExpressionSyntax>().Where(IsNumber).Any(IsSuspect));
    }

    static IEnumerable<LiteralExpressionSyntax> Numbers(CodeFile file) => file.Tree.DescendantNodes().OfType<LiteralExpressionSyntax>().Where(IsNumber);

    static bool IsNumber(LiteralExpressionSyntax literal) =>
        literal.IsKind(SyntaxKind.NumericLiteralExpression) && Convert.ToDecimal(literal.Token.Value, CultureInfo.InvariantCulture) is not (0 or 1);

    static bool IsSuspect(LiteralExpressionSyntax number)
    {
        var statement = StatementOf(number);
        var names = statement.DescendantTokens().Where(t => t.IsKind(SyntaxKind.IdentifierToken)).Select(t => t.ValueText);
        return names.Any(n => Clinical().IsMatch(n)) || number.Ancestors().OfType<InvocationExpressionSyntax>().Any(i => LengthOfTime().IsMatch(i.Expression.ToString()));
    }

    /// <summary>The nearest statement, arm, member or argument list that a reader takes in as one claim.</summary>
    static SyntaxNode StatementOf(SyntaxNode node) =>
        node.Ancestors().First(a => a is StatementSyntax or SwitchExpressionArmSyntax or MemberDeclarationSyntax or CompilationUnitSyntax) switch
        {
            IfStatementSyntax choice => choice.Condition,
            WhileStatementSyntax loop => loop.Condition,
            ForStatementSyntax loop when loop.Condition is { } condition => condition,
            var claim => claim,
        };

    [GeneratedRegex("(?<![A-Za-z])(?i:age|pain|fever|temperature|hearing|dizz|vertigo|symptom|onset|dose|drops?|blood|swell|adult|pregnan|discharge|facial|stroke)s?(?![a-z])|Age(?![a-z])|Fever|Temperature|Hearing(?![a-z])|Vertigo|Symptom|Onset|Dose|Adult")]
    private static partial Regex Clinical();

    [GeneratedRegex(@"\.(From|Plus|Add)(Minutes|Hours|Days|Weeks|Months|Years)$")]
    private static partial Regex LengthOfTime();
}
