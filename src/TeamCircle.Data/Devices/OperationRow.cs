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

    /// <summary>JSON of the answer; of what was sent, where it was set aside.</summary>
    public string? Result { get; set; }
    public Instant At { get; set; }
}

public enum OperationState
{
    Stored,
    SetAside,
    Refused,
}
