namespace EarHelp.Triage.Diagrams;

/// <summary>
/// Nodes of multi-valued decision diagrams, each kept once. A node is a variable and one child a class of the variable's values.
/// A child is a node (from 0) or a terminal (negative, see <see cref="Terminal"/>).
/// </summary>
sealed class NodeTable(int[] arity, int offset)
{
    int[] _variable = new int[256];
    int[] _first = new int[256];
    int[] _children = new int[1024];
    Reach[] _reach = new Reach[256];
    int[] _slots = NewSlots(1024);
    int _childCount;

    /// <summary>How many nodes this table holds; their numbers start at the offset.</summary>
    public int Count { get; private set; }

    public int End => offset + Count;

    public int VariableOf(int node) => _variable[node - offset];

    public ReadOnlySpan<int> ChildrenOf(int node)
    {
        var index = node - offset;
        return _children.AsSpan(_first[index], arity[_variable[index]]);
    }

    public int ChildOf(int node, int valueClass) => _children[_first[node - offset] + valueClass];

    /// <summary>The facts it and the nodes under it test, and the ends they lead to.</summary>
    public ref readonly Reach ReachOf(int node) => ref _reach[node - offset];

    /// <summary>The node with this variable and these children, or -1.</summary>
    public int Find(int variable, ReadOnlySpan<int> children)
    {
        for (var slot = Hash(variable, children) & (_slots.Length - 1); ; slot = (slot + 1) & (_slots.Length - 1))
        {
            var index = _slots[slot];
            if (index < 0)
                return -1;
            if (_variable[index] == variable && _children.AsSpan(_first[index], children.Length).SequenceEqual(children))
                return index + offset;
        }
    }

    /// <summary>Adds a node that is not yet there.</summary>
    public int Add(int variable, ReadOnlySpan<int> children, Reach reach)
    {
        if (Count == _variable.Length)
        {
            Array.Resize(ref _variable, Count * 2);
            Array.Resize(ref _first, Count * 2);
            Array.Resize(ref _reach, Count * 2);
        }

        while (_childCount + children.Length > _children.Length)
            Array.Resize(ref _children, _children.Length * 2);
        if ((Count + 1) * 2 > _slots.Length)
            GrowSlots();
        _variable[Count] = variable;
        _first[Count] = _childCount;
        _reach[Count] = reach;
        children.CopyTo(_children.AsSpan(_childCount));
        _childCount += children.Length;
        Place(Count, Hash(variable, children));
        return offset + Count++;
    }

    /// <summary>Forgets all nodes; keeps the room.</summary>
    public void Clear()
    {
        for (var index = 0; index < Count; index++)
        {
            var children = _children.AsSpan(_first[index], arity[_variable[index]]);
            var slot = Hash(_variable[index], children) & (_slots.Length - 1);
            while (_slots[slot] >= 0)
            {
                _slots[slot] = -1;
                slot = (slot + 1) & (_slots.Length - 1);
            }
        }

        Count = 0;
        _childCount = 0;
    }

    static int Hash(int variable, ReadOnlySpan<int> children)
    {
        unchecked
        {
            var hash = (uint)variable * 0x9E3779B1u;
            foreach (var child in children)
                hash = (hash ^ (uint)child) * 0x85EBCA6Bu;
            return (int)((hash ^ (hash >> 15)) & 0x7FFFFFFF);
        }
    }

    static int[] NewSlots(int length)
    {
        var slots = new int[length];
        Array.Fill(slots, -1);
        return slots;
    }

    void Place(int index, int hash)
    {
        var slot = hash & (_slots.Length - 1);
        while (_slots[slot] >= 0)
            slot = (slot + 1) & (_slots.Length - 1);
        _slots[slot] = index;
    }

    void GrowSlots()
    {
        _slots = NewSlots(_slots.Length * 2);
        for (var index = 0; index < Count; index++)
            Place(index, Hash(_variable[index], _children.AsSpan(_first[index], arity[_variable[index]])));
    }
}
