namespace TeamCircle.Data.Devices;

/// <summary>A person's browser on one device that keeps what today's and tomorrow's visits need.</summary>
public sealed class DeviceRow : IAgencyRow
{
    public int AgencyId { get; set; }
    public Guid Id { get; set; }
    public int PersonId { get; set; }

    /// <summary>As its owner calls it.</summary>
    public required string Name { get; set; }

    /// <summary>The random name of the device's own database: two people on one tablet never meet.</summary>
    public required string Store { get; set; }

    /// <summary>The server's copy of the key to what the device keeps, under the portal's data protection: a forgotten PIN loses nothing.</summary>
    public required string Key { get; set; }
    public Instant MadeAt { get; set; }

    /// <summary>Null before the first.</summary>
    public Instant? LastContact { get; set; }

    /// <summary>From then on it is given nothing; null while it may be used.</summary>
    public Instant? RevokedAt { get; set; }
    public int? RevokedBy { get; set; }
}

/// <summary>What a device sent and the portal could not accept: kept whole until a person has dealt with it.</summary>
public sealed class SetAsideRow : IAgencyRow, IVersionedRow
{
    public int AgencyId { get; set; }
    public int Id { get; set; }

    /// <summary>Who did it.</summary>
    public int PersonId { get; set; }
    public Guid OperationId { get; set; }

    /// <summary>The learner it is about, also where the person has no right to them any more; null where nothing in it led to one.</summary>
    public int? LearnerId { get; set; }
    public OperationKind Kind { get; set; }

    /// <summary>JSON of all that was typed or recorded, as it came: not jsonb, which refuses what a keyboard can type.</summary>
    public required string Body { get; set; }

    /// <summary>When it was done, by the device's clock, and how far that one was ahead of the portal's.</summary>
    public Instant Made { get; set; }
    public int? SkewMs { get; set; }
    public Guid? DeviceId { get; set; }

    /// <summary>In words, for a person.</summary>
    public required string Why { get; set; }
    public Instant At { get; set; }

    /// <summary>Null while it waits, with the two that follow.</summary>
    public Instant? ClosedAt { get; set; }
    public int? ClosedBy { get; set; }

    /// <summary>Why it was closed; null where it was entered.</summary>
    public string? ClosedWhy { get; set; }

    /// <summary>The operation by which it was entered after all.</summary>
    public Guid? EnteredBy { get; set; }
    public int Version { get; set; }
}

/// <summary>What a device sends.</summary>
public enum OperationKind
{
    Practice,
    Visit,
    Probe,
    Hold,
}
