namespace EarHelp.Understanding.Messages;

/// <summary>Rows of symbols with what they stand for. Filled once, then only read.</summary>
sealed class PatternTree<T>(bool letsSideWordsIn = true)
{
    /// <summary>Words that a gap may hold, and side words that may stand inside a phrase; limits of the machine.</summary>
    const int LongestGap = 4, MostInGap = 9, MostSideWords = 3, Deepest = 24;

    readonly Node _root = new();

    public void Add(IReadOnlyList<int?> row, T meaning)
    {
        var node = _root;
        foreach (var symbol in row.Take(Deepest))
            node = symbol is { } s ? node.Next(s) : node.Gap ??= new Node();
        if (!node.Meanings.Contains(meaning))
            node.Meanings.Add(meaning);
    }

    /// <summary>Calls back for each phrase that begins at a word, with the places of its own words in order.</summary>
    public void Match(MessageWords words, int at, Action<ReadOnlySpan<int>, List<T>> found)
    {
        Span<int> path = stackalloc int[Deepest * 4];
        Follow(_root, words, at, path, 0, letsSideWordsIn ? MostSideWords : 0, found);
    }

    static void Follow(Node node, MessageWords words, int at, Span<int> path, int depth, int sideWords, Action<ReadOnlySpan<int>, List<T>> found)
    {
        if (node.Meanings.Count > 0)
            found(path[..depth], node.Meanings);
        if (node.Children.TryGetValue(SymbolTable.Edge, out var edge) && (at >= words.Count || words.BeginsClause(at)))
            Follow(edge, words, at, path, depth, 0, found);
        if (at >= words.Count || (depth > 0 && words.BeginsSentence(at)))
            return;
        foreach (var (symbol, length) in words.SymbolsAt(at))
        {
            if (depth + length > path.Length || !node.Children.TryGetValue(symbol, out var next))
                continue;
            for (var i = 0; i < length; i++)
                path[depth + i] = at + i;
            Follow(next, words, at + length, path, depth + length, sideWords, found);
        }

        if (depth > 0 && sideWords > 0 && node.Children.Count > 0 && words.IsSideWord(at))
            Follow(node.WithoutMeaning, words, at + 1, path, depth, sideWords - 1, found);
        if (node.Gap is not { } gap)
            return;
        for (int next = at, left = LongestGap; left >= 0; next++)
        {
            Follow(gap, words, next, path, depth, 0, found);
            if (next >= words.Count || words.StopsGap(next) || next - at >= MostInGap)
                return;
            left -= words.IsSideWord(next) ? 0 : 1;
        }
    }

    sealed class Node
    {
        Node? _withoutMeaning;

        public Dictionary<int, Node> Children { get; private init; } = [];

        public List<T> Meanings { get; } = [];

        public Node? Gap { get; set; }

        /// <summary>The same place in a row, once its own phrase has been told.</summary>
        public Node WithoutMeaning => Meanings.Count == 0 ? this : _withoutMeaning ??= new Node { Children = Children, Gap = Gap };

        public Node Next(int symbol)
        {
            if (!Children.TryGetValue(symbol, out var next))
                Children[symbol] = next = new Node();
            return next;
        }
    }
}
