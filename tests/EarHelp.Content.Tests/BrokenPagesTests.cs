using System.Collections.Immutable;
using System.Text;
using EarHelp.Content.Sources;

namespace EarHelp.Content.Tests;

/// <summary>Breaks the clinic's own pages one at a time: each fault is told at its file and line, in an author's words.</summary>
public sealed class BrokenPagesTests
{
    static readonly ImmutableArray<SourceFile> Sources = SourceFolder.Read(SourceFolder.FindRoot(AppContext.BaseDirectory)!);

    [Fact]
    public void The_pages_as_they_are_have_no_fault() =>
        Assert.Empty(EditionCompiler.Compile(Sources, CompileOptions.Plain).Problems);

    [Theory]
    [InlineData("dialogs/levels.md", "PT24H", "one day", "EH0221")]
    [InlineData("dialogs/levels.md", "| now | PT0M |", "| now | P30D |", "EH0211")]
    [InlineData("dialogs/destinations.md", "| home | always |", "| home | sometimes |", "EH0218")]
    [InlineData("dialogs/ear/1-facts.md", "| arm or leg weak | person |", "| arm or leg weak | body |", "EH0108")]
    [InlineData("dialogs/ear/1-facts.md", "0 to 120 years, whole", "0 to 120 years", "EH0109")]
    [InlineData("dialogs/ear/1-facts.md", "| face drooping | person | yes, no | safety | yes | no | yes | - |", "| face drooping | person | yes, no | safety | yes | no | - | - |", "EH0212")]
    [InlineData("dialogs/ear/1-facts.md", "| face drooping | person | yes, no | safety | yes | no | yes | - |", "| face drooping | person | yes, no | safety | yes | perhaps | yes | - |", "EH0112")]
    [InlineData("dialogs/ear/1-facts.md", "| face drooping | person | yes, no | safety | yes | no | yes | - |", "| face drooping | person | yes, no | safety | yes | no | yes |", "EH0007")]
    [InlineData("dialogs/ear/1-facts.md", "screens at most: 32", "screens at moost: 32", "EH0003")]
    [InlineData("dialogs/ear/2-named-facts.md", "| face drooping | yes | [S63] |", "| face droping | yes | [S63] |", "EH0103")]
    [InlineData("dialogs/ear/2-named-facts.md", "| face drooping | yes | [S63] |", "| face drooping | yess | [S63] |", "EH0105")]
    [InlineData("dialogs/ear/2-named-facts.md", "| face drooping | yes | [S63] |", "| face drooping | yes | [S963] |", "EH0103")]
    [InlineData("dialogs/ear/2-named-facts.md", "any of: stroke sign", "anyy of: stroke sign", "EH0009")]
    [InlineData("dialogs/ear/3-rules-now.md", "| RF-001 | yes |", "| RF-001 |  |", "EH0008")]
    [InlineData("dialogs/ear/3-rules-now.md", "| RF-001 | yes | - | - | - | - | - | now |", "| RF-001 | yes | - | - | - | - | - | noww |", "EH0103")]
    [InlineData("dialogs/ear/3-rules-now.md", "| RF-009 |", "| RF-001 |", "EH0102")]
    [InlineData("dialogs/ear/3-rules-now.md", "(policy P: the most urgent row decides; reasons and warnings of all matching rows are kept)", "", "EH0201")]
    [InlineData("dialogs/ear/3-rules-now.md", "| now | emergency service |", "| now | this clinic |", "EH0208")]
    [InlineData("content/clinic.md", "emergency without hearing:", "emergency by hearing:", "EH0406")]
    [InlineData("content/clinic.md", "time zone: Europe/London", "time zone: Europe/Londn", "EH0402")]
    [InlineData("content/clinic.md", "| Monday | 09:00 | 17:30 |", "| Mondy | 09:00 | 17:30 |", "EH0403")]
    [InlineData("content/clinic.md", "| Sefton Quill | 2 | Wednesday | 13:00 | 19:00 |", "| Sefton Quill | 1 | Wednesday | 13:00 | 19:00 |", "EH0403")]
    [InlineData("content/clinic.md", "| Sefton Quill | 2 | Wednesday | 13:00 | 19:00 |", "| Rowan Adair | 2 | Wednesday | 13:00 | 19:00 |", "EH0403")]
    [InlineData("content/clinic.md", "| Sefton Quill | 2 | Wednesday | 13:00 | 19:00 |", "| Sefton Quill | 2 | Wednesday | 13:00 | 19:30 |", "EH0403")]
    [InlineData("content/clinic.md", "| Sefton Quill | 2 | Wednesday | 13:00 | 19:00 |", "| Sefton Quill | 2 | Wednesday | 19:00 | 13:00 |", "EH0403")]
    [InlineData("content/clinic.md", "| Sefton Quill | 2 | Wednesday | 13:00 | 19:00 |", "| Sefton Quill |  | Wednesday | 13:00 | 19:00 |", "EH0008")]
    [InlineData("content/en/outcomes.md", "### What this means", "### What it means", "EH0304")]
    [InlineData("content/en/outcomes.md", "nobody has answered after 2 working days", "nobody has answered by {answer by}", "EH0016")]
    [InlineData("content/en/reasons.md", "| RF-001 |", "| RF-901 |", "EH0302")]
    public void A_broken_page_is_told_with_its_line_and_how_to_mend_it(string file, string whole, string broken, string code)
    {
        var source = Sources.Single(s => s.Path == file);
        var text = Encoding.UTF8.GetString(source.Bytes.Span).ReplaceLineEndings("\n");
        var at = text.IndexOf(whole, StringComparison.Ordinal);
        Assert.True(at >= 0, $"{file} no longer holds \"{whole}\"");
        var changed = text[..at] + broken + text[(at + whole.Length)..];

        var compiled = EditionCompiler.Compile(Sources.Replace(source, new SourceFile(file, Encoding.UTF8.GetBytes(changed))), CompileOptions.Plain);

        Assert.Null(compiled.Edition);
        Assert.Null(compiled.Assessor);
        // A setting without its twin is told one line above the twin, a level out of order one line below.
        var line = 1 + text.AsSpan(0, at).Count('\n');
        var problem = compiled.Problems.First(p => p.Code == code && p.Spot.File == file);
        Assert.InRange(problem.Spot.Line, line - 1, line + 1);
        Assert.True(problem.Spot.Column > 0);
        Assert.False(string.IsNullOrWhiteSpace(problem.Fault) || string.IsNullOrWhiteSpace(problem.Mend));
    }

    [Fact]
    public void What_a_word_processor_leaves_behind_is_read_as_before()
    {
        var source = Sources.Single(s => s.Path == "dialogs/ear/1-facts.md");
        var text = "\uFEFF" + Encoding.UTF8.GetString(source.Bytes.Span).ReplaceLineEndings("\r\n").Replace("0 to 120", "0\u00A0to\u00A0120", StringComparison.Ordinal);

        var compiled = EditionCompiler.Compile(Sources.Replace(source, new SourceFile(source.Path, Encoding.UTF8.GetBytes(text))), CompileOptions.Plain);

        Assert.Empty(compiled.Problems);
    }

    [Fact]
    public void No_damage_to_any_page_makes_the_compiler_throw()
    {
        var chance = new Random(7);
        for (var i = 0; i < 20; i++)
        {
            var source = Sources[chance.Next(Sources.Length)];
            var bytes = source.Bytes.ToArray();
            var cut = bytes.AsSpan(0, chance.Next(bytes.Length)).ToArray();
            for (var hit = 0; hit < 20 && cut.Length > 0; hit++)
                cut[chance.Next(cut.Length)] = (byte)"|:-*{}[]()#\n, "[chance.Next(14)];

            var compiled = EditionCompiler.Compile(Sources.Replace(source, new SourceFile(source.Path, cut)), CompileOptions.Plain);

            Assert.True(compiled.Edition is not null || !compiled.Problems.IsEmpty);
        }
    }

    [Fact]
    public void The_same_pages_have_the_same_hash_and_come_out_of_a_pack_as_they_went_in()
    {
        var again = SourcePack.Unpack(SourcePack.Pack(Sources));

        Assert.Equal(EditionHash.Of(Sources), EditionHash.Of(again));
        Assert.NotEqual(EditionHash.Of(Sources), EditionHash.Of(Sources.RemoveAt(0)));
    }
}
