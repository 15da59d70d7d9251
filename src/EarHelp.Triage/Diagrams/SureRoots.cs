using System.Collections.Immutable;
using System.Numerics;
using System.Runtime.InteropServices;
using System.Runtime.Intrinsics;

namespace EarHelp.Triage.Diagrams;

/// <summary>
/// Yes/no roots as they are read when every answer is sure. By fact and class a bit for each root says whether it may still be true;
/// the bits of all answers together leave the few roots that must be walked.
/// </summary>
sealed class SureRoots
{
    public const int BitsOfWord = 64;

    readonly NodeTable _nodes;
    readonly ImmutableArray<int> _roots;
    readonly int _words;
    readonly int[] _facts;
    readonly int[] _firstRow;
    readonly ulong[] _open;

    public SureRoots(NodeTable nodes, int[] arity, ImmutableArray<int> roots)
    {
        (_nodes, _roots) = (nodes, roots);
        _words = Math.Max(1, (roots.Length + Vector256<byte>.Count * 8 - 1) / (Vector256<byte>.Count * 8)) * Vector256<ulong>.Count;
        _firstRow = new int[arity.Length];
        for (var fact = 1; fact < arity.Length; fact++)
            _firstRow[fact] = _firstRow[fact - 1] + arity[fact - 1];
        _open = new ulong[(arity.Sum() + 1) * _words];
        var open = new OpenClasses(nodes, arity);
        for (var root = 0; root < roots.Length; root++)
        {
            if (roots[root] != Terminal.False)
                Mark(root, open.Of(roots[root]));
        }

        _facts = [.. Enumerable.Range(0, arity.Length).Where(f => !IsOpenFor(f, arity[f]))];
    }

    /// <summary>How many words hold a bit for each root.</summary>
    public int Words => _words;

    /// <summary>Sets a bit for every root that is true.</summary>
    /// <param name="isTrue">As many words as <see cref="Words"/>.</param>
    /// <returns>False if an answer that is not sure has a say after all.</returns>
    public bool Read(Restriction restriction, Span<ulong> isTrue)
    {
        KeepOpen(restriction, isTrue);
        for (var word = 0; word < isTrue.Length; word++)
        {
            for (var left = isTrue[word]; left != 0; left &= left - 1)
            {
                var bit = BitOperations.TrailingZeroCount(left);
                if (restriction.SureEndOf(_roots[(word * BitsOfWord) + bit]) is not { } end)
                    return false;
                if (end != Terminal.True)
                    isTrue[word] &= ~(1UL << bit);
            }
        }

        return true;
    }

    /// <summary>The roots that no answer by itself makes false.</summary>
    void KeepOpen(Restriction restriction, Span<ulong> left)
    {
        Span<int> rows = stackalloc int[_facts.Length + 1];
        var count = 0;
        rows[count++] = _open.Length - _words;
        foreach (var fact in _facts)
        {
            var only = restriction.OnlyClassOf(fact);
            if (only >= 0)
                rows[count++] = (_firstRow[fact] + only) * _words;
        }

        var blocks = MemoryMarshal.Cast<ulong, Vector256<ulong>>(left);
        for (var block = 0; block < blocks.Length; block++)
        {
            var all = Vector256<ulong>.AllBitsSet;
            foreach (var row in rows[..count])
                all &= Vector256.LoadUnsafe(ref _open[row + (block * Vector256<ulong>.Count)]);
            blocks[block] = all;
        }
    }

    void Mark(int root, ReadOnlySpan<ulong> openClasses)
    {
        var (word, bit) = (root / BitsOfWord, 1UL << (root % BitsOfWord));
        for (var fact = 0; fact < openClasses.Length; fact++)
        {
            for (var classes = openClasses[fact]; classes != 0; classes &= classes - 1)
                _open[((_firstRow[fact] + BitOperations.TrailingZeroCount(classes)) * _words) + word] |= bit;
        }

        // The last row is of no fact: every root that can be true at all.
        _open[_open.Length - _words + word] |= bit;
    }

    bool IsOpenFor(int fact, int classes)
    {
        var all = _open.AsSpan(_open.Length - _words);
        for (var c = 0; c < classes; c++)
        {
            if (!_open.AsSpan((_firstRow[fact] + c) * _words, _words).SequenceEqual(all))
                return false;
        }

        return true;
    }
}
