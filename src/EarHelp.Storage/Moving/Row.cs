using System.Collections.Immutable;

namespace EarHelp.Storage.Moving;

/// <summary>One thing that is kept.</summary>
/// <param name="Values">As many as the part has columns, each as its <see cref="ColumnKind"/> says.</param>
sealed record Row(Part Part, ImmutableArray<object?> Values)
{
    /// <summary>The conversation to which it belongs, or null.</summary>
    public string? Conversation => Part.ConversationAt < 0 ? null : (string)Values[Part.ConversationAt]!;

    public T At<T>(int column) => (T)Values[column]!;
}
