using System.Collections.Immutable;
using System.Text.Json;
using System.Text.Json.Serialization;
using EarHelp.Conversation.Keeping;

namespace EarHelp.Conversation.Signing;

/// <summary>All that was done about editions, as it is kept.</summary>
/// <param name="Last">The last record, or null.</param>
public sealed record Ledger(ImmutableArray<Deed> Deeds, ChainedRecord? Last)
{
    static readonly JsonSerializerOptions Written = new(JsonSerializerDefaults.Web)
    {
        Converters = { new JsonStringEnumConverter(JsonNamingPolicy.CamelCase) },
        RespectNullableAnnotations = true,
        RespectRequiredConstructorParameters = true,
    };

    public static Ledger Empty { get; } = new([], null);

    /// <exception cref="LedgerDamagedException">A record holds something else.</exception>
    public static Ledger Of(ImmutableArray<ChainedRecord> records) => new([.. records.Select(DeedOf)], records.IsEmpty ? null : records[^1]);

    /// <exception cref="LedgerDamagedException">It cannot be relied on.</exception>
    public static async ValueTask<Ledger> ReadAsync(IEditionLedger kept, CancellationToken cancellation)
    {
        ArgumentNullException.ThrowIfNull(kept);
        return Of(await kept.ReadAsync(cancellation).ConfigureAwait(false));
    }

    /// <exception cref="JsonException">It is none.</exception>
    public static Deed ReadDeed(ReadOnlySpan<byte> json) => JsonSerializer.Deserialize<Deed>(json, Written) ?? throw new JsonException("A deed is an object, not null.");

    public static byte[] WriteDeed(Deed deed) => JsonSerializer.SerializeToUtf8Bytes(deed, Written);

    /// <summary>The hash of the last record; empty if there is none.</summary>
    public string LastHash => Last?.Hash ?? string.Empty;

    /// <summary>The record to append for a deed.</summary>
    public ChainedRecord Next(Deed deed) => ChainedRecord.After(Last, WriteDeed(deed));

    /// <summary>True if what the store holds is made up. Records are only ever added, so it stays so.</summary>
    public bool IsInvented => Deeds.Any(d => d.Kind == DeedKind.Invented);

    /// <summary>The edition that was published last, or null: then the files on the disk are followed.</summary>
    public string? Published => Deeds.LastOrDefault(d => d.Kind is DeedKind.Published or DeedKind.FilesFollowed) is { Kind: DeedKind.Published } last ? last.Edition : null;

    /// <summary>The edition that was signed last, by anybody, or null: it may be published at any moment.</summary>
    public string? LastSigned => Deeds.LastOrDefault(d => d.Kind is DeedKind.SignedAsAuthor or DeedKind.SignedAsApprover)?.Edition;

    /// <summary>Editions that were published after something was withdrawn last, if one of them is in force; else none.</summary>
    public ImmutableArray<string> Corrected
    {
        get
        {
            var since = Deeds.Reverse().TakeWhile(d => d.Kind != DeedKind.Withdrawn).ToArray();
            return since.Length == Deeds.Length || !since.Any(d => d.Kind == DeedKind.Published && d.Edition == Published)
                ? []
                : [.. since.Where(d => d.Kind == DeedKind.Published).Select(d => d.Edition).Distinct()];
        }
    }

    /// <summary>The edition, other than this one, that was published last, or null.</summary>
    public string? LastPublishedBesides(string edition) => Deeds.LastOrDefault(d => d.Kind == DeedKind.Published && d.Edition != edition)?.Edition;

    /// <summary>The last signature of this kind under an edition, or null.</summary>
    public Deed? SignatureUnder(string edition, DeedKind kind) => Deeds.LastOrDefault(d => d.Kind == kind && d.Edition == edition);

    /// <summary>
    /// The instant from which the edition is not signed any more; null if it never was by two people who saw the same comparison, and wherever
    /// what is kept is made up.
    /// </summary>
    public long? SignedUntil(string edition) =>
        !IsInvented
        && SignatureUnder(edition, DeedKind.SignedAsAuthor) is { } author
        && SignatureUnder(edition, DeedKind.SignedAsApprover) is { } approver
        && !SamePerson.Is(author.Name, approver.Name)
        && author.Seen is { } first && approver.Seen is { } second
        && first.Against == second.Against && first.Hash == second.Hash
            ? Math.Min(author.ExpiresUnixMilliseconds ?? 0, approver.ExpiresUnixMilliseconds ?? 0)
            : null;

    /// <summary>The edition, other than this one, whose approver signed last, expired or not; or null.</summary>
    public string? LastSignedBesides(string edition) =>
        Deeds.LastOrDefault(d => d.Kind == DeedKind.SignedAsApprover && d.Edition != edition && SignedUntil(d.Edition) is not null)?.Edition;

    static Deed DeedOf(ChainedRecord record)
    {
        try
        {
            return ReadDeed(record.Body.Span);
        }
        catch (JsonException)
        {
            throw new LedgerDamagedException($"Record {record.Number} of the ledger of editions cannot be read.");
        }
    }
}
