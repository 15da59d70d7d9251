using System.Collections.Immutable;
using System.Text;
using EarHelp.Content.Sources;

namespace EarHelp.Content.Tests.Editions;

/// <summary>Whatever a file holds, compiling it gives faults and never an exception.</summary>
public sealed class DamagedSourcesTests
{
    const string Marks = "|-:*{}[]()#>`\\\"',;\n\r\t <>=!~_0123456789abcdef\u00A0\u2013\u201C";

    [Fact]
    public void Files_with_letters_changed_left_out_and_put_in_do_not_throw()
    {
        var chance = new Random(5);
        for (var i = 0; i < 250; i++)
        {
            var file = Some(chance);
            var text = new StringBuilder(Encoding.UTF8.GetString(file.Bytes.Span));
            for (var hit = 0; hit < 1 + chance.Next(8); hit++)
                Hit(text, chance);

            AssertSound(file, Encoding.UTF8.GetBytes(text.ToString()));
        }
    }

    [Fact]
    public void Files_that_end_anywhere_do_not_throw()
    {
        var chance = new Random(6);
        for (var i = 0; i < 120; i++)
        {
            var file = Some(chance);

            AssertSound(file, file.Bytes[..chance.Next(file.Bytes.Length)].ToArray());
        }
    }

    [Fact]
    public void Files_of_random_bytes_do_not_throw()
    {
        var chance = new Random(7);
        for (var i = 0; i < 120; i++)
        {
            var bytes = new byte[chance.Next(400)];
            chance.NextBytes(bytes);

            AssertSound(Some(chance), bytes);
        }
    }

    [Fact]
    public void Files_in_each_others_place_do_not_throw()
    {
        var chance = new Random(8);
        for (var i = 0; i < 60; i++)
            AssertSound(Some(chance), Some(chance).Bytes.ToArray());
    }

    [Fact]
    public void No_files_at_all_are_a_fault()
    {
        var compiled = SmallSources.Compile([]);

        Assert.Null(compiled.Edition);
        Assert.Contains(compiled.Problems, p => p.Code == "EH0020");
    }

    static SourceFile Some(Random chance) => SmallSources.All[chance.Next(SmallSources.All.Length)];

    static void Hit(StringBuilder text, Random chance)
    {
        var at = chance.Next(text.Length);
        switch (chance.Next(4))
        {
            case 0:
                text.Remove(at, Math.Min(text.Length - at - 1, chance.Next(1, 30)));
                break;
            case 1:
                text.Insert(at, new string(Marks[chance.Next(Marks.Length)], chance.Next(1, 4)));
                break;
            default:
                text[at] = Marks[chance.Next(Marks.Length)];
                break;
        }
    }

    static void AssertSound(SourceFile file, byte[] bytes)
    {
        var changed = new SourceFile(file.Path, bytes);
        ImmutableArray<SourceFile> sources = [.. SmallSources.All.Where(f => f.Path != file.Path), changed];

        var compiled = SmallSources.Compile(sources);

        Assert.Equal(compiled.Edition is null, !compiled.Problems.IsEmpty);
        Assert.All(compiled.Problems, p => Assert.True(p.Spot is { Line: > 0, Column: > 0, File.Length: > 0 }, p.ToString()));
        DecideFile.Read(changed, []);
    }
}
