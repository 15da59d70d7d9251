using EarHelp.Content.Sources;

namespace EarHelp.Content.Tests.Editions;

public sealed class AftercareTests
{
    const string Visit = """
        ---
        dialog: nip
        ---
        | finding | about | kind | for a time | days | for good | source |
        |---|---|---|---|---|---|---|
        | seen | ear | found | - | - | - | [S1] |
        | sore | ear | found | - | - | - | [S1] |

        | aftercare | days | only if | never if | source |
        |---|---|---|---|---|

        """;

    const string Words = "---\nwords: findings\n---\n## seen\n\n**Form:** Seen\n\n**Told:** It was seen.\n\n## sore\n\n**Form:** Sore\n\n**Told:** It is sore.\n";

    [Fact]
    public void A_row_has_its_days_and_its_findings()
    {
        var compiled = Compile("| cover it | 0 to 5 | seen, sore | - | [S1] |", "| leave the scab | 7 | - | - | [S1] |");

        Assert.Empty(compiled.Problems);
        var dialog = compiled.Edition!.Dialog;
        var plan = dialog.Aftercare.Select(s => (dialog.Advice[s.Advice].Id, s.Days.From, s.Days.To, string.Join(',', s.OnlyIf.Select(f => dialog.Findings[f].Id))));
        Assert.Equal([("cover it", 0, 5, "seen,sore"), ("leave the scab", 7, 7, "")], plan);
    }

    [Theory]
    [InlineData("| cover it | 5 to 1 | seen | - | [S1] |", "\"5 to 1\" are no days of a plan.")]
    [InlineData("| cover it | soon | seen | - | [S1] |", "\"soon\" are no days of a plan.")]
    [InlineData("| cover it | 0 | seen | seen, sore | [S1] |", "\"cover it\" is never planned: whatever calls for it also forbids it.")]
    [InlineData("| cover it | 0 | heard | - | [S1] |", "heard")]
    [InlineData("| cover him | 0 | seen | - | [S1] |", "cover him")]
    public void A_row_that_cannot_be_planned_is_a_fault(string row, string fault)
    {
        var compiled = Compile(row, "| leave the scab | 7 | - | - | [S1] |");

        Assert.Null(compiled.Edition);
        Assert.Contains(compiled.Problems, p => p.ToString().Contains(fault, StringComparison.Ordinal));
    }

    [Fact]
    public void That_some_visit_has_no_plan_is_a_fault()
    {
        var compiled = Compile("| cover it | 0 | seen | - | [S1] |", "| leave the scab | 0 | - | sore | [S1] |");

        Assert.Contains(compiled.Problems, p => p.Code == "EH0232" && p.ToString().Contains("Some visit has no plan", StringComparison.Ordinal));
    }

    static Compilation Compile(params string[] rows) => SmallSources.Compile(SmallSources.All
        .With(SourceFile.Of("dialogs/nip/visit.md", Visit + string.Join('\n', rows) + "\n"))
        .With(SourceFile.Of("content/en/findings.md", Words)));
}
