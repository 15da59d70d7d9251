using System.Collections.Concurrent;
using EarHelp.Conversation.States;

namespace EarHelp.Conversation.Taking;

/// <summary>States of conversations in use: only a shortcut for folding their turns again. Bounded.</summary>
sealed class KnownStates(int most)
{
    readonly ConcurrentDictionary<string, ConversationState> _states = new(StringComparer.Ordinal);
    readonly ConcurrentQueue<string> _order = new();

    public ConversationState? Find(string conversation) => _states.GetValueOrDefault(conversation);

    public void Put(string conversation, ConversationState state)
    {
        if (!_states.ContainsKey(conversation))
            _order.Enqueue(conversation);
        _states[conversation] = state;
        while (_states.Count > most && _order.TryDequeue(out var oldest))
            _states.TryRemove(oldest, out _);
    }

    public void Forget(string conversation) => _states.TryRemove(conversation, out _);
}
