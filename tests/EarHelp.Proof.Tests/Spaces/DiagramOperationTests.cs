using CsCheck;
using EarHelp.Triage.Diagrams;

namespace EarHelp.Proof.Tests.Spaces;

/// <summary>Diagrams made by chance, held against the table of all their values.</summary>
public sealed class DiagramOperationTests
{
    static readonly int[] Arity = [2, 3, 2, 4];

    static readonly int[][] Points =
        [.. from a in Enumerable.Range(0, 2) from b in Enumerable.Range(0, 3) from c in Enumerable.Range(0, 2) from d in Enumerable.Range(0, 4) select (int[])[a, b, c, d]];

    /// <summary>A yes or no for each of the points.</summary>
    static readonly Gen<bool[]> Table = Gen.Bool.Array[48];

    [Fact]
    public void Two_tables_are_one_node_exactly_if_they_are_equal()
    {
        Gen.Select(Table, Table).Sample((one, other) =>
        {
            var builder = new DiagramBuilder(Arity, 10_000);
            return Of(builder, one) == Of(builder, other) == one.SequenceEqual(other);
        });
    }

    [Fact]
    public void And_or_not_and_choose_are_those_of_each_point()
    {
        Gen.Select(Table, Table, Table).Sample((one, other, third) =>
        {
            var builder = new DiagramBuilder(Arity, 100_000);
            var (a, b, c) = (Of(builder, one), Of(builder, other), Of(builder, third));
            return builder.And(a, b) == Of(builder, [.. one.Zip(other, (x, y) => x && y)])
                && builder.Or(a, b) == Of(builder, [.. one.Zip(other, (x, y) => x || y)])
                && builder.Not(a) == Of(builder, [.. one.Select(x => !x)])
                && builder.Choose(a, b, c) == Of(builder, [.. one.Select((x, i) => x ? other[i] : third[i])]);
        });
    }

    [Fact]
    public void Exchanging_the_ends_twice_gives_the_diagram_back()
    {
        Table.Sample(table =>
        {
            var builder = new DiagramBuilder(Arity, 100_000);
            var root = Of(builder, table);
            return builder.Exchange(builder.Exchange(root, end => end - 1), end => end + 1) == root;
        });
    }

    [Fact]
    public void A_bound_that_is_met_is_named()
    {
        var builder = new DiagramBuilder(Arity, 2);

        var met = Assert.Throws<DiagramLimitException>(() => Of(builder, [.. Points.Select(p => (p[0] + p[1] + p[2] + p[3]) % 2 == 0)]));

        Assert.Contains("2 diagram nodes", met.Message, StringComparison.Ordinal);
    }

    static int Of(DiagramBuilder builder, bool[] table) => Of(builder, table, 0, 0, table.Length);

    static int Of(DiagramBuilder builder, bool[] table, int variable, int from, int length)
    {
        if (variable == Arity.Length)
            return table[from] ? Terminal.True : Terminal.False;
        var children = new int[Arity[variable]];
        var part = length / children.Length;
        for (var i = 0; i < children.Length; i++)
            children[i] = Of(builder, table, variable + 1, from + (i * part), part);
        return builder.Make(variable, children);
    }
}
