namespace EarHelp.Understanding.Messages;

/// <summary>Numbers for the words, beginnings of words and classes that stand in patterns.</summary>
sealed class SymbolTable
{
    /// <summary>Shorter beginnings would fit too much; a limit of the machine.</summary>
    const int ShortestBeginning = 3;

    static readonly char[] Digits = [.. "0123456789."];

    public const int Figure = 0, OutOfTen = 1, Edge = 2;

    readonly Dictionary<string, int> _words = new(StringComparer.Ordinal);
    readonly Dictionary<string, int> _beginnings = new(StringComparer.Ordinal);
    readonly Dictionary<string, int> _units = new(StringComparer.Ordinal);
    readonly Dictionary<string, int> _classes = new(StringComparer.Ordinal);
    int _count = 3;

    public IEnumerable<string> Words => _words.Keys;

    /// <param name="written">A word, <c>itch-</c> for a beginning, <c>@class</c>, <c>#</c> for a figure, <c>#10</c> for one such as 7/10, <c>#kg</c> for one such as 48kg, or <c>^</c> where a clause begins or ends.</param>
    public int Add(string written) => written switch
    {
        "#" => Figure,
        "#10" => OutOfTen,
        Pattern.Edge => Edge,
        ['#', ..] => Number(_units, written[1..]),
        ['@', ..] => Number(_classes, written[1..]),
        [.., '-'] => Number(_beginnings, written[..^1]),
        _ => Number(_words, written),
    };

    public bool Has(string word) => _words.ContainsKey(word);

    /// <summary>What a word of a message can stand for, apart from classes.</summary>
    public void Of(string word, List<int> into)
    {
        if (_words.TryGetValue(word, out var number))
            into.Add(number);
        if (char.IsAsciiDigit(word[0]))
        {
            into.Add(word.EndsWith("/10", StringComparison.Ordinal) ? OutOfTen : Figure);
            if (_units.TryGetValue(word.TrimStart(Digits), out number))
                into.Add(number);
        }

        var beginnings = _beginnings.GetAlternateLookup<ReadOnlySpan<char>>();
        for (var length = ShortestBeginning; length <= word.Length; length++)
        {
            if (beginnings.TryGetValue(word.AsSpan(0, length), out number))
                into.Add(number);
        }
    }

    public bool Begins(string word)
    {
        var beginnings = _beginnings.GetAlternateLookup<ReadOnlySpan<char>>();
        for (var length = ShortestBeginning; length <= word.Length; length++)
        {
            if (beginnings.ContainsKey(word.AsSpan(0, length)))
                return true;
        }

        return false;
    }

    int Number(Dictionary<string, int> table, string name)
    {
        if (!table.TryGetValue(name, out var number))
            table[name] = number = _count++;
        return number;
    }
}
