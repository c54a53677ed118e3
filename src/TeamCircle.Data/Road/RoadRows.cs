namespace TeamCircle.Data.Road;

/// <summary>Where a place is, kept apart from its code: calendars and feeds never join it.</summary>
public sealed class PlaceAddressRow : IAgencyRow, IVersionedRow
{
    public int AgencyId { get; set; }
    public int PlaceId { get; set; }
    public required string Address { get; set; }
    public int Version { get; set; }
}

/// <summary>Where a person's days begin and end; no row: nobody said, and a day begins at its first visit.</summary>
public sealed class RoadStartRow : IAgencyRow, IVersionedRow
{
    public int AgencyId { get; set; }
    public int PersonId { get; set; }

    /// <summary>Null where the person said so once and takes it back.</summary>
    public int? PlaceId { get; set; }
    public int Version { get; set; }
}
