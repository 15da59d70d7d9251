using EarHelp.Conversation.Keeping;

namespace EarHelp.Storage.Moving;

/// <summary>Looks at rows in order for what was changed after it was made: turns, the ledger and the audit trail are chained by hashes.</summary>
sealed class ChainCheck
{
    readonly List<string> _damages = [];
    TurnRecord? _lastTurn;
    string? _damagedConversation;
    ChainedRecord? _lastOfChain;
    Part? _chain;
    bool _isChainDamaged;

    /// <summary>One sentence a damaged conversation or chain.</summary>
    public IReadOnlyList<string> Damages => _damages;

    public void Add(Row row)
    {
        if (row.Part == Part.Turns)
            AddTurn(RowRecords.Turn(row));
        else if (row.Part == Part.Ledger || row.Part == Part.Audit)
            AddChained(row.Part, RowRecords.Chained(row));
    }

    void AddTurn(TurnRecord turn)
    {
        var last = _lastTurn?.Conversation == turn.Conversation ? _lastTurn : null;
        _lastTurn = turn;
        if (turn.Conversation == _damagedConversation || (turn.Number == (last?.Number ?? 0) + 1 && turn.IsIntact(last?.Hash ?? string.Empty)))
            return;
        _damagedConversation = turn.Conversation;
        _damages.Add($"Turn {turn.Number} of conversation {turn.Conversation} is damaged: its hash does not fit.");
    }

    void AddChained(Part chain, ChainedRecord record)
    {
        if (_chain != chain)
            (_chain, _lastOfChain, _isChainDamaged) = (chain, null, false);
        if (!_isChainDamaged && !record.Follows(_lastOfChain))
        {
            _isChainDamaged = true;
            _damages.Add($"Entry {record.Number} of the {chain.Name} is damaged: it does not follow from the one before.");
        }

        _lastOfChain = record;
    }
}
