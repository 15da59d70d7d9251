using System.Globalization;

namespace EarHelp.Triage.Tests.Cells;

/// <summary>Random cells.</summary>
static class SomeCells
{
    static readonly string[] Marks = ["<", "<=", ">", ">=", "=", "!="];

    public static string OfNumbers(Random chance, int from, int to)
    {
        var list = string.Join(", ", Enumerable.Range(0, 1 + chance.Next(3)).Select(_ => Part(chance, from, to)));
        return chance.Next(3) == 0 ? $"not({list})" : list;
    }

    static string Part(Random chance, int from, int to)
    {
        var one = Number(chance, from, to);
        var other = Number(chance, from, to);
        return chance.Next(4) switch
        {
            0 => Write(one),
            1 => $"{Marks[chance.Next(Marks.Length)]} {Write(one)}",
            _ => $"{"[(]"[chance.Next(3)]}{Write(Math.Min(one, other))}..{Write(Math.Max(one, other))}{"])["[chance.Next(3)]}",
        };
    }

    static decimal Number(Random chance, int from, int to) => chance.Next(from * 2, (to * 2) + 1) / 2m;

    static string Write(decimal number) => number.ToString(CultureInfo.InvariantCulture);
}
