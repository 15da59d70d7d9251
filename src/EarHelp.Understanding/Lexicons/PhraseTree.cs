using System.Collections.Immutable;
using EarHelp.Understanding.Words;

namespace EarHelp.Understanding.Lexicons;

/// <summary>All phrases of a language, word by word. Filled once, then only read.</summary>
sealed class PhraseTree
{
    readonly Node _root = new();

    public void Add(ImmutableArray<Word> phrase, Meaning meaning)
    {
        if (phrase.IsEmpty)
            return;
        var node = _root;
        foreach (var word in phrase)
            node = node.Next(word.Text);
        if (!node.Meanings.Contains(meaning))
            node.Meanings.Add(meaning);
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
