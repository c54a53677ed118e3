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
}
