using Microsoft.AspNetCore.Identity;

namespace TeamCircle.Data.Account;

/// <summary>Somebody who signs in. Global: one account may be a person in several agencies.</summary>
public sealed class AccountRow : IdentityUser<long>
{
    /// <summary>No sign-in and no request from then on; null while active.</summary>
    public Instant? EndedAt { get; set; }
}

/// <summary>Which person of an agency an account is.</summary>
public sealed class MembershipRow
{
    public int AgencyId { get; set; }
    public int PersonId { get; set; }
    public long AccountId { get; set; }
    public Instant Since { get; set; }
}

/// <summary>One sign-in, kept on the server so that ending it takes effect on the next request.</summary>
public sealed class SignInRow
{
    public long Id { get; set; }
    public long AccountId { get; set; }

    /// <summary>SHA-256 of the key in the cookie; the key itself is never stored.</summary>
    public required byte[] KeyHash { get; set; }

    /// <summary>The ticket, protected by the data-protection keys.</summary>
    public required byte[] Ticket { get; set; }
    public Instant StartedAt { get; set; }
    public Instant LastSeenAt { get; set; }
    public Instant EndsAt { get; set; }
    public Instant? EndedAt { get; set; }

    /// <summary>The browser in a few words, for the person's own list of sign-ins.</summary>
    public string? Device { get; set; }
}

/// <summary>A link shown once: to join an agency as one of its persons, or to set a new password.</summary>
public sealed class InvitationRow
{
    public long Id { get; set; }
    public InvitationKind Kind { get; set; }
    public int? AgencyId { get; set; }
    public int? PersonId { get; set; }
    public long? AccountId { get; set; }
    public required string Email { get; set; }

    /// <summary>SHA-256 of 32 random bytes.</summary>
    public required byte[] TokenHash { get; set; }
    public Instant MadeAt { get; set; }
    public Instant EndsAt { get; set; }
    public Instant? UsedAt { get; set; }
}

/// <summary>The secret address at which a person's own visits can be read without signing in, by another calendar.</summary>
public sealed class FeedRow
{
    public long Id { get; set; }
    public int AgencyId { get; set; }
    public int PersonId { get; set; }

    /// <summary>SHA-256 of 32 random bytes; the address itself is shown once and never stored.</summary>
    public required byte[] KeyHash { get; set; }

    /// <summary>The form that made it: sent again, it makes no other.</summary>
    public Guid OperationId { get; set; }
    public Instant MadeAt { get; set; }

    /// <summary>From then on the address leads nowhere; null while it holds.</summary>
    public Instant? EndedAt { get; set; }

    /// <summary>To the hour; null while nobody has asked.</summary>
    public Instant? LastUsedAt { get; set; }
}

public enum InvitationKind
{
    Join,
    NewPassword,
}

/// <summary>What happened to an account: sign-ins, refusals, changes of password or factors. Only ever added to.</summary>
public sealed class AccountEventRow
{
    public long Id { get; set; }
    public long? AccountId { get; set; }
    public Instant At { get; set; }
    public required string Kind { get; set; }
    public string? Detail { get; set; }
    public string? Address { get; set; }
}
