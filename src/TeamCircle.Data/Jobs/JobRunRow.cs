namespace TeamCircle.Data.Jobs;

/// <summary>One run of something that the portal does by the clock, for one agency.</summary>
public sealed class JobRunRow : IAgencyRow
{
    public int AgencyId { get; set; }
    public long Id { get; set; }
    public Job Job { get; set; }
    public Instant StartedAt { get; set; }
    public Instant EndedAt { get; set; }
    public bool Failed { get; set; }

    /// <summary>What came of it, in words for the administrator.</summary>
    public required string Result { get; set; }
}

/// <summary>What the portal does by the clock.</summary>
public enum Job
{
    /// <summary>Seals the trail of changes.</summary>
    Sealing,

    /// <summary>Writes series of visits on.</summary>
    Series,

    /// <summary>Queues digests.</summary>
    Digests,

    /// <summary>Sends what is queued.</summary>
    Sending,

    /// <summary>Ends what has outlived its time.</summary>
    Expiry,

    /// <summary>Proposes what is due to be destroyed.</summary>
    Retention,
}
