namespace TeamCircle.Data.Import;

/// <summary>One import: which files, with their hashes, how many rows were stored and how many refused.</summary>
public sealed class ImportRow : IAgencyRow
{
    public int AgencyId { get; set; }
    public int Id { get; set; }
    public Instant At { get; set; }
    public int PersonId { get; set; }

    /// <summary>JSON: per file its name, SHA-256, rows, stored, refused.</summary>
    public required string Files { get; set; }
    public int Stored { get; set; }
    public int Refused { get; set; }

    /// <summary>With <see cref="At"/> it names the transaction, whose changes of rows that stood before are in the trail.</summary>
    public long Tx { get; set; }

    /// <summary>When it was undone; null while it stands.</summary>
    public Instant? UndoneAt { get; set; }

    /// <summary>The transaction of the undoing.</summary>
    public long? UndoneTx { get; set; }
    public int? UndoneBy { get; set; }
    public string? UndoneReason { get; set; }
}

/// <summary>Rows that an import added, so that it can be undone. The trail names none of them: an import leaves one change row.</summary>
public sealed class ImportAdditionRow : IAgencyRow
{
    public int AgencyId { get; set; }
    public int Id { get; set; }
    public int ImportId { get; set; }
    public required string TableName { get; set; }

    /// <summary>As the trail writes a row's key: without the agency, parts separated by a slash.</summary>
    public string[] RowKeys { get; set; } = [];
}
