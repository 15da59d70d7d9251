using System.Collections.Immutable;
using EarHelp.Understanding.Words;

namespace EarHelp.Understanding.Lexicons;

/// <summary>All phrases of a language, word by word. Filled once, then only read.</summary>
sealed class PhraseTree
{
    readonly Node _root = new();

    /// <summary>The longest phrase, in words: the work at each word of a text is bounded by it.</summary>
    public int LongestInWords { get; private set; }

    public void Add(ImmutableArray<Word> phrase, Meaning meaning)
    {
        if (phrase.IsEmpty)
            return;
        var node = _root;
        foreach (var word in phrase)
            node = node.Next(word.Text);
        if (!node.Meanings.Contains(meaning))
            node.Meanings.Add(meaning);
        LongestInWords = Math.Max(LongestInWords, phrase.Length);
    }

    /// <summary>Calls back for each phrase that begins at a word: how many words it has, and what it may mean.</summary>
    public void Match(ReadOnlySpan<string> words, int at, Action<int, List<Meaning>> found)
    {
        var node = _root;
        for (var i = at; i < words.Length; i++)
        {
            if (!node.Children.TryGetValue(words[i], out var next))
                return;
            node = next;
            if (node.Meanings.Count > 0)
                found(i - at + 1, node.Meanings);
        }
    }

    /// <summary>What exactly these words mean; empty if they are no phrase.</summary>
    public IReadOnlyList<Meaning> Whole(ReadOnlySpan<string> words)
    {
        var node = _root;
        foreach (var word in words)
        {
            if (!node.Children.TryGetValue(word, out var next))
                return [];
            node = next;
        }

        return node.Meanings;
    }

    sealed class Node
    {
        public Dictionary<string, Node> Children { get; } = new(StringComparer.Ordinal);

        public List<Meaning> Meanings { get; } = [];

        public Node Next(string word)
        {
            if (!Children.TryGetValue(word, out var next))
                Children[word] = next = new Node();
            return next;
        }
    }
}
