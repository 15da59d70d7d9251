using EarHelp.Content.Demonstrations;
using EarHelp.Content.Problems;
using EarHelp.Content.Sources;
using EarHelp.Triage.Editions;

namespace EarHelp.Content.Tests.Demonstrations;

public sealed class InventedWeekTests
{
    const string Good = """
        # A week

        | staff | roles | on duty |
        |---|---|---|
        | A. Keeper | desk | yes |

        | first name |
        |---|
        | Ada |

        | surname |
        |---|
        | Bray |

        | how many | number |
        |---|---|
        | of each | 3 |

        | request | level | hours ago | then | word | note | needs |
        |---|---|---|---|---|---|---|
        | C. Dean | within a day | 2.5 | raised | now | It is worse. | step-free, carer |

        | visit | level | hours ago | left | right | person | later |
        |---|---|---|---|---|---|---|

        | call | level | hours ago | ended |
        |---|---|---|---|
        | - | now | 1 | told |

        | incident | by |
        |---|---|
        | Nobody answered. | A. Keeper |

        | message | how often |
        |---|---|
        | Is there a bench? | 2 |
        """;

    static readonly KnownInWeek Known = new(["desk", "clinician"], ["of each"], ["nothing", "raised", "sent"], ["raised"], ["sent"], ["told"], "patient");

    static readonly Lazy<Dialog> Shipped = new(() =>
        EditionCompiler.Compile(SourceFolder.Read(SourceFolder.FindRoot(AppContext.BaseDirectory)!), CompileOptions.Plain).Edition!.Dialog);

    [Fact]
    public void A_week_is_read_row_by_row()
    {
        var (week, problems) = Read(Good);

        Assert.Empty(problems);
        var request = Assert.Single(week!.Requests);
        Assert.Equal(("C. Dean", 2, TimeSpan.FromMinutes(150), "raised", "now"), (request.Name, request.Level, request.Ago, request.Then, request.Word));
        Assert.Equal("step-free, carer", string.Join(", ", request.Needs));
        Assert.Equal("", Assert.Single(week.Calls).Number);
        Assert.Equal(3, week.Counts["of each"]);
    }

    [Theory]
    [InlineData("| A. Keeper | desk | yes |", "| A. Keeper | gardener | yes |", 5, "role \"gardener\"")]
    [InlineData("| of each | 3 |", "| of each | some |", 17, "\"some\" is no number")]
    [InlineData("| of each | 3 |", "", 15, "how many \"of each\"")]
    [InlineData("| 2.5 | raised |", "| 400 | raised |", 21, "\"400\" is no number")]
    [InlineData("| raised | now |", "| raised | soon |", 21, "level \"soon\"")]
    [InlineData("| raised | now |", "| sent | the moon |", 21, "destination \"the moon\"")]
    [InlineData("| raised | now |", "| hoped | now |", 21, "happening \"hoped\"")]
    [InlineData("| Nobody answered. | A. Keeper |", "| Nobody answered. | B. Keeper |", 32, "member of staff \"B. Keeper\"")]
    public void What_cannot_be_is_named_with_its_line(string right, string wrong, int line, string fault)
    {
        var (week, problems) = Read(Good.Replace(right, wrong, StringComparison.Ordinal));

        Assert.Null(week);
        Assert.Contains(problems, p => (p.Spot.Line == line || wrong.Length == 0) && p.Fault.Contains(fault, StringComparison.Ordinal));
    }

    [Fact]
    public void A_table_that_is_missing_is_said()
    {
        var (week, problems) = Read(Good[..Good.IndexOf("| message", StringComparison.Ordinal)]);

        Assert.Null(week);
        Assert.Contains("no table \"message\"", Assert.Single(problems).Fault, StringComparison.Ordinal);
    }

    [Fact]
    public void The_week_is_no_part_of_an_edition()
    {
        Assert.False(SourceFolder.IsCompiled(InventedWeek.File));
        Assert.False(SourceFolder.IsExamples(InventedWeek.File));
    }

    static (InventedWeek? Week, System.Collections.Immutable.ImmutableArray<Problem> Problems) Read(string text) =>
        InventedWeekReader.Read(SourceFile.Of(InventedWeek.File, text), Shipped.Value, Known);
}
