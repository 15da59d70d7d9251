namespace EarHelp.Triage.Diagrams;

/// <summary>What was already worked out, by three nodes; a hash table that is only added to.</summary>
sealed class ChoiceMemo
{
    const int Width = 4;

    int[] _slots = new int[Width << 14];
    int _count;

    /// <summary>The marker of a free slot; no result is ever this.</summary>
    const int Free = 0;

    public bool TryGet(int one, int two, int three, out int result)
    {
        var mask = (_slots.Length / Width) - 1;
        for (var slot = Hash(one, two, three) & mask; ; slot = (slot + 1) & mask)
        {
            var entry = _slots.AsSpan(slot * Width, Width);
            if (entry[3] == Free)
            {
                result = 0;
                return false;
            }

            if (entry[0] == one && entry[1] == two && entry[2] == three)
            {
                result = Decode(entry[3]);
                return true;
            }
        }
    }

    /// <summary>Adds what is not yet there.</summary>
    public void Add(int one, int two, int three, int result)
    {
        if (++_count * 2 > _slots.Length / Width)
            Grow();
        Place(_slots, one, two, three, Encode(result));
    }

    static void Place(int[] slots, int one, int two, int three, int encoded)
    {
        var mask = (slots.Length / Width) - 1;
        var slot = Hash(one, two, three) & mask;
        while (slots[(slot * Width) + 3] != Free)
            slot = (slot + 1) & mask;
        var entry = slots.AsSpan(slot * Width, Width);
        (entry[0], entry[1], entry[2], entry[3]) = (one, two, three, encoded);
    }

    void Grow()
    {
        var slots = new int[_slots.Length * 2];
        for (var at = 0; at < _slots.Length; at += Width)
        {
            if (_slots[at + 3] != Free)
                Place(slots, _slots[at], _slots[at + 1], _slots[at + 2], _slots[at + 3]);
        }

        _slots = slots;
    }

    /// <summary>Nodes count from 0, so they are kept one higher; terminals are negative and never 0.</summary>
    static int Encode(int node) => node >= 0 ? node + 1 : node;

    static int Decode(int encoded) => encoded > 0 ? encoded - 1 : encoded;

    static int Hash(int one, int two, int three)
    {
        unchecked
        {
            var hash = (((((uint)one * 0x9E3779B1u) ^ (uint)two) * 0x85EBCA6Bu) ^ (uint)three) * 0xC2B2AE35u;
            return (int)((hash ^ (hash >> 15)) & 0x7FFFFFFF);
        }
    }
}
