using EarHelp.Conversation.Keeping;

namespace EarHelp.Storage.Moving;

/// <summary>Rows as what they are.</summary>
static class RowRecords
{
    public static TurnRecord Turn(Row row) => new(
        row.At<string>(0),
        row.At<int>(1),
        row.At<string>(2),
        row.At<long>(3),
        row.At<string>(4),
        row.At<string>(5),
        row.At<bool>(6),
        row.At<byte[]>(7),
        row.At<string>(8),
        row.At<string>(9));

    public static ChainedRecord Chained(Row row) => new(row.At<int>(0), row.At<byte[]>(1), row.At<string>(2), row.At<string>(3));
}
