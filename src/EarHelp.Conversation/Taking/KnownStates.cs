using EarHelp.Conversation.States;

namespace EarHelp.Conversation.Taking;

/// <summary>States of conversations in use: only a shortcut for folding their turns again. Bounded; the one unused for longest goes first.</summary>
sealed class KnownStates(int most)
{
    readonly Lock _gate = new();
    readonly Dictionary<string, LinkedListNode<(string Conversation, ConversationState State)>> _nodes = new(StringComparer.Ordinal);
    readonly LinkedList<(string Conversation, ConversationState State)> _byUse = new();

    public ConversationState? Find(string conversation)
    {
        lock (_gate)
        {
            if (!_nodes.TryGetValue(conversation, out var node))
                return null;
            _byUse.Remove(node);
            _byUse.AddFirst(node);
            return node.Value.State;
        }
    }

    /// <summary>Keeps a state, unless a later one is known.</summary>
    public void Put(string conversation, ConversationState state)
    {
        lock (_gate)
        {
            if (_nodes.TryGetValue(conversation, out var node))
            {
                if (node.Value.State.Number < state.Number)
                    node.Value = (conversation, state);
                return;
            }

            _nodes[conversation] = _byUse.AddFirst((conversation, state));
            while (_nodes.Count > most)
            {
                _nodes.Remove(_byUse.Last!.Value.Conversation);
                _byUse.RemoveLast();
            }
        }
    }

    public void Forget(string conversation)
    {
        lock (_gate)
        {
            if (_nodes.Remove(conversation, out var node))
                _byUse.Remove(node);
        }
    }

    public void ForgetAll()
    {
        lock (_gate)
        {
            _nodes.Clear();
            _byUse.Clear();
        }
    }
}
