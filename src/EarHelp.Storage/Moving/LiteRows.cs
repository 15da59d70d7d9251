using EarHelp.Clinic.Records;
using EarHelp.Storage.Records;
using LiteDB;

namespace EarHelp.Storage.Moving;

/// <summary>Documents of LiteDB as rows, and rows as documents.</summary>
static class LiteRows
{
    /// <summary>Some rows of a part, in the order of their keys.</summary>
    /// <param name="after">The key of the last row that was read before.</param>
    public static (List<Row> Rows, BsonValue? Last) Read(LiteDatabase database, Part part, BsonValue after)
    {
        var documents = Pieces.After(database.GetCollection(LiteShape.Of(part).Collection), after);
        return ([.. documents.Select(d => Read(database, part, d))], Pieces.EndOf(documents));
    }

    public static IEnumerable<Row> All(LiteDatabase database, Part part)
    {
        for (BsonValue? after = BsonValue.MinValue; after is not null;)
        {
            var (rows, last) = Read(database, part, after);
            foreach (var row in rows)
                yield return row;
            after = last;
        }
    }

    public static void Write(LiteDatabase database, Part part, IReadOnlyList<Row> rows)
    {
        database.GetCollection(LiteShape.Of(part).Collection).InsertBulk(rows.Select(Write));
        if (part == Part.Requests)
        {
            database.GetCollection(RequestDocuments.Contacts).InsertBulk(
                rows.Where(r => r.Values[3] is not null).Select(r => new BsonDocument { ["_id"] = r.At<string>(0), ["b"] = r.At<byte[]>(3) }));
        }
        else if (part == Part.Turns)
        {
            database.GetCollection(CardDocuments.Collection).Upsert(
                rows.Select(RowRecords.Turn).GroupBy(t => t.Conversation, StringComparer.Ordinal).Select(c => CardDocuments.Write(c.Last())));
        }
    }

    static Row Read(LiteDatabase database, Part part, BsonDocument document)
    {
        var shape = LiteShape.Of(part);
        return new Row(part, [.. part.Columns.Select((column, i) => Value(
            column,
            shape.Fields[i] == LiteShape.Elsewhere ? database.GetCollection(RequestDocuments.Contacts).FindById(document["_id"])?["b"] ?? BsonValue.Null : document[shape.Fields[i]]))]);
    }

    static object? Value(Column column, BsonValue value) => value.IsNull ? null : column.Kind switch
    {
        ColumnKind.Text => value.AsString,
        ColumnKind.Number => value.AsInt32,
        ColumnKind.LongNumber => value.AsInt64,
        ColumnKind.Flag => value.AsBoolean,
        _ => value.AsBinary,
    };

    static BsonDocument Write(Row row)
    {
        var document = row.Part == Part.Requests ? RequestDocuments.Write(RequestJson.ReadRequest(row.At<byte[]>(2))) : [];
        if (row.Part == Part.Turns)
            document["_id"] = TurnDocuments.IdOf(row.At<string>(0), row.At<int>(1));
        var fields = LiteShape.Of(row.Part).Fields;
        for (var i = 0; i < fields.Length; i++)
        {
            if (fields[i] != LiteShape.Elsewhere)
                document[fields[i]] = new BsonValue(row.Values[i]);
        }

        return document;
    }
}
