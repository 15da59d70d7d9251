using System.Collections.Immutable;
using EarHelp.Understanding.Words;

namespace EarHelp.Understanding.Messages;

/// <summary>The words of one message with all that each can stand for.</summary>
sealed class MessageWords
{
    readonly ImmutableArray<Word> _words;
    readonly string _text;
    readonly string[] _mended;
    readonly List<(int Symbol, int Length)>[] _symbols;
    readonly bool[] _sideWords, _stopsGap, _beginsSentence;

    public MessageWords(PhraseBook book, string text)
    {
        _text = text;
        _words = WordList.Of(text);
        _mended = new string[_words.Length];
        _symbols = new List<(int, int)>[_words.Length];
        _beginsSentence = new bool[_words.Length];
        _sideWords = new bool[_words.Length];
        _stopsGap = new bool[_words.Length];
        var own = new List<int>();
        for (var i = 0; i < _words.Length; i++)
        {
            _mended[i] = book.Mend(_words[i].Text);
            own.Clear();
            book.Symbols.Of(_mended[i], own);
            if (HasIs(i) && book.Knows(_words[i].Text[..^1]))
                book.Symbols.Of(_words[i].Text[..^1], own);
            _symbols[i] = own.ConvertAll(s => (s, 1));
            _beginsSentence[i] = i == 0 || IsSentenceEnd(i);
        }

        AddShortForms(book);
        AddClasses(book);
        for (var i = 0; i < _words.Length; i++)
        {
            _sideWords[i] = book.IsSideWord(_mended[i]);
            _stopsGap[i] = _words[i].BeginsClause && i > 0;
        }
    }

    public int Count => _words.Length;

    public string this[int at] => _mended[at];

    public Word Own(int at) => _words[at];

    public bool IsMended(int at) => !string.Equals(_words[at].Text, _mended[at], StringComparison.Ordinal);

    public IReadOnlyList<(int Symbol, int Length)> SymbolsAt(int at) => _symbols[at];

    public bool BeginsSentence(int at) => _beginsSentence[at];

    public bool BeginsClause(int at) => _words[at].BeginsClause || IsDash(at);

    public bool IsSideWord(int at) => _sideWords[at];

    public bool StopsGap(int at) => _stopsGap[at];

    public void StopGapsAt(int at) => _stopsGap[at] = true;

    /// <summary>Whether a mark stands between a word and the one before it, or after the last.</summary>
    public bool HasMarkBefore(int at, char mark) => Between(at).Contains(mark);

    public int SentenceEnd(int at)
    {
        var end = at + 1;
        while (end < Count && !_beginsSentence[end])
            end++;
        return end;
    }

    public int SentenceStart(int at)
    {
        while (at > 0 && !_beginsSentence[at])
            at--;
        return at;
    }

    public int CommaClauseStart(int at)
    {
        while (at > 0 && !BeginsClause(at))
            at--;
        return at;
    }

    public int CommaClauseEnd(int at)
    {
        var end = at + 1;
        while (end < Count && !BeginsClause(end))
            end++;
        return end;
    }

    public TextSpan Cover(int first, int last) => TextSpan.Cover(_words[first].Span, _words[last].Span);

    void AddShortForms(PhraseBook book)
    {
        var own = new List<int>();
        for (var i = 0; i < _words.Length; i++)
        {
            foreach (var (written, shorter) in book.ShortForms[_mended[i]])
            {
                if (i + written.Length > _words.Length || !written.AsSpan().SequenceEqual(_mended.AsSpan(i, written.Length)))
                    continue;
                own.Clear();
                book.Symbols.Of(shorter, own);
                foreach (var symbol in own)
                    _symbols[i].Add((symbol, written.Length));
            }
        }
    }

    void AddClasses(PhraseBook book)
    {
        var found = new List<(int At, int Symbol, int Length)>();
        for (var i = 0; i < _words.Length; i++)
        {
            var at = i;
            book.Classes.Match(this, at, (path, classes) =>
            {
                foreach (var symbol in classes)
                    found.Add((at, symbol, path[^1] - at + 1));
            });
        }

        var wholes = Wholes(book);
        foreach (var (at, symbol, length) in found)
        {
            if (wholes[at] <= length)
                _symbols[at].Add((symbol, length));
        }
    }

    /// <summary>"My neck's stiff": the word without the letter behind its apostrophe is meant too.</summary>
    bool HasIs(int at)
    {
        var own = _text.AsSpan(_words[at].Span.Start, _words[at].Span.Length);
        return own.Length > 3 && own[^1] is 's' or 'S' && own[^2] is '\'' or '\u2019';
    }

    /// <summary>By place: how many words name one thing together with the one that stands there; 1 for most.</summary>
    int[] Wholes(PhraseBook book)
    {
        var wholes = new int[_words.Length];
        for (var i = 0; i < _words.Length; i++)
        {
            foreach (var whole in book.OneThing[_mended[i]])
            {
                if (i + whole.Length <= _words.Length && whole.AsSpan().SequenceEqual(_mended.AsSpan(i, whole.Length)))
                    Array.Fill(wholes, whole.Length, i, whole.Length);
            }
        }

        return wholes;
    }

    bool IsSentenceEnd(int at) => Between(at).IndexOfAny('.', '!', '?') >= 0 || Between(at).IndexOfAny('\n', ';') >= 0;

    bool IsDash(int at) => at > 0 && (Between(at).Contains(" -", StringComparison.Ordinal) || Between(at).IndexOfAny('\u2013', '\u2014', ')') >= 0);

    ReadOnlySpan<char> Between(int at)
    {
        var from = at == 0 ? 0 : _words[at - 1].Span.End;
        var to = at < _words.Length ? _words[at].Span.Start : _text.Length;
        return _text.AsSpan(from, Math.Max(0, to - from));
    }
}
