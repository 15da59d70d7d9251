using EarHelp.Storage.Records;
using LiteDB;

namespace EarHelp.Storage.Writing;

/// <summary>The last number and the turn ids of conversations that were used lately. The truth is the file. For the writer's thread only.</summary>
sealed class Remembered(int most)
{
    readonly Dictionary<string, Known> _known = new(StringComparer.Ordinal);
    readonly Queue<string> _order = new();

    public Known Of(LiteDatabase database, string conversation)
    {
        if (_known.TryGetValue(conversation, out var known))
            return known;
        known = new Known();
        foreach (var document in TurnDocuments.Of(database, conversation))
            known.Add(document["n"].AsInt32, document["t"].AsString);
        _known.Add(conversation, known);
        _order.Enqueue(conversation);
        while (_known.Count > most && _order.TryDequeue(out var oldest))
            _known.Remove(oldest);
        return known;
    }

    public void Forget(string conversation) => _known.Remove(conversation);

    public void ForgetAll()
    {
        _known.Clear();
        _order.Clear();
    }

    /// <summary>What is known of one conversation.</summary>
    public sealed class Known
    {
        readonly Dictionary<string, int> _numbers = new(StringComparer.Ordinal);

        (long At, bool IsFinished)? _card;

        public int Last { get; private set; }

        public int? NumberOf(string turnId) => _numbers.TryGetValue(turnId, out var number) ? number : null;

        public void Add(int number, string turnId)
        {
            Last = number;
            _numbers.TryAdd(turnId, number);
        }

        /// <summary>True if the conversation's card must be written with this turn; then it counts as written.</summary>
        public bool WritesCard(long at, bool isFinished)
        {
            if (_card is { } card && card.IsFinished == isFinished && at >= card.At && at - card.At < CardDocuments.Behind)
                return false;
            _card = (at, isFinished);
            return true;
        }
    }
}
