namespace TeamCircle.Data.Devices;

/// <summary>
/// One act of one person, named by an id that the browser made: a repeat with the same content gets the first answer,
/// a repeat with other content is refused.
/// </summary>
public sealed class OperationRow : IAgencyRow
{
    public int AgencyId { get; set; }
    public int PersonId { get; set; }
    public Guid Id { get; set; }
    public required string Name { get; set; }
    public required byte[] RequestHash { get; set; }
    public OperationState State { get; set; }

    /// <summary>JSON of the answer. What was sent stands in <see cref="SetAsideRow"/> where it was set aside.</summary>
    public string? Result { get; set; }
    public Instant At { get; set; }
}

public enum OperationState
{
    Stored,

    /// <summary>Kept whole, waiting for a person.</summary>
    SetAside,

    /// <summary>Malformed: nothing of it is kept here.</summary>
    Refused,
}
