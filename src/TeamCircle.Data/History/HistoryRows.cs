using TeamCircle.Core.History;

namespace TeamCircle.Data.History;

/// <summary>One change of one row, written by a trigger in the same transaction; nobody can write or alter it by hand.</summary>
public sealed class ChangeRow : IAgencyRow
{
    public int AgencyId { get; set; }
    public long Id { get; set; }
    public Instant At { get; set; }

    /// <summary>The transaction, so that the sealing job can tell rows older than every running one.</summary>
    public long Tx { get; set; }
    public int PersonId { get; set; }
    public required string Ground { get; set; }
    public Guid? OperationId { get; set; }
    public int? LearnerId { get; set; }
    public required string TableName { get; set; }
    public required string RowKey { get; set; }
    public required string Act { get; set; }

    /// <summary>JSON of the row before and after; null where there is none.</summary>
    public string? Before { get; set; }
    public string? After { get; set; }

    /// <summary>The destruction that emptied both; null where none did. In no hash: what it says is held against the destruction's own row.</summary>
    public int? DestructionId { get; set; }
}

/// <summary>A sealed run of changes: Merkle root over them, the hash of the block before, a code under a key kept outside.</summary>
public sealed class BlockRow : IAgencyRow
{
    public int AgencyId { get; set; }
    public long Id { get; set; }
    public Instant SealedAt { get; set; }
    public int Changes { get; set; }

    /// <summary>In order; ids are given before a transaction ends, so a later block may hold a smaller one.</summary>
    public required long[] ChangeIds { get; set; }

    /// <summary>The hash of each change, 32 bytes each, so that the one that was altered can be named.</summary>
    public required byte[] Leaves { get; set; }
    public required byte[] Root { get; set; }
    public required byte[] Previous { get; set; }
    public required byte[] Hash { get; set; }
    public required byte[] Code { get; set; }

    /// <summary>Every change of a transaction below this number is in this block or an earlier one. This server's own
    /// number, in no hash: a restore on another server begins it anew.</summary>
    public long Horizon { get; set; }

    internal Seal Seal() => new(AgencyId, SealedAt, Changes, Root, Previous);

    /// <summary>The leaves one by one.</summary>
    internal IEnumerable<byte[]> Hashes() => Leaves.Chunk(System.Security.Cryptography.SHA256.HashSizeInBytes);
}

/// <summary>One request that showed, or was refused, learners' records: who, when, what, on what ground.</summary>
public sealed class AccessRow : IAgencyRow
{
    public int AgencyId { get; set; }
    public long Id { get; set; }
    public Instant At { get; set; }
    public int PersonId { get; set; }

    /// <summary>The relation or role that opened it, in words.</summary>
    public required string Ground { get; set; }

    /// <summary>The page and handler, never an address with an id in it.</summary>
    public required string Page { get; set; }

    /// <summary>The learners in scope; empty where no learner's record was in it.</summary>
    public int[] LearnerIds { get; set; } = [];

    /// <summary>A whole-agency read: every learner of the agency was in scope.</summary>
    public bool WholeAgency { get; set; }
    public bool Refused { get; set; }

    /// <summary>The network address that asked, as in the events of an account; null for what a job read, and before it was kept.</summary>
    public string? Address { get; set; }
}
