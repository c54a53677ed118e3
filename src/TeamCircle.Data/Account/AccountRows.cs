using Microsoft.AspNetCore.Identity;

namespace TeamCircle.Data.Account;

/// <summary>Somebody who signs in. Global: one account may be a person in several agencies.</summary>
public sealed class AccountRow : IdentityUser<long>
{
    /// <summary>No sign-in and no request from then on; null while active.</summary>
    public Instant? EndedAt { get; set; }

    /// <summary>Made with the demonstration, whose passphrase is known: let in by it alone, and only where <see cref="DemonstrationAccounts"/> says so.</summary>
    public bool IsDemonstration { get; set; }
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

    /// <summary>Goes to the new address of somebody who changes theirs; <see cref="InvitationRow.Email"/> is that address.</summary>
    NewEmail,
}

/// <summary>The authenticator app of an account; one at most.</summary>
public sealed class AuthenticatorRow
{
    public long AccountId { get; set; }

    /// <summary>The shared secret, under the portal's data protection.</summary>
    public required byte[] Secret { get; set; }

    /// <summary>The latest 30-second step whose code was taken, counted from 1970: it and all before it are taken no more.</summary>
    public long LastStep { get; set; }
    public Instant Since { get; set; }
}

/// <summary>A code for the day on which phone and passkey are lost.</summary>
public sealed class RecoveryCodeRow
{
    public long Id { get; set; }
    public long AccountId { get; set; }

    /// <summary>SHA-256 of 118 random bits.</summary>
    public required byte[] CodeHash { get; set; }
    public Instant? UsedAt { get; set; }
}

/// <summary>What a passkey was asked to sign; taken away by the answer, so that no answer counts twice.</summary>
public sealed class PasskeyChallengeRow
{
    /// <summary>SHA-256 of the key that the page holds.</summary>
    public required byte[] KeyHash { get; set; }

    /// <summary>Whose passkey is asked for; null at the door, where the passkey says who it is.</summary>
    public long? AccountId { get; set; }
    public required string State { get; set; }
    public Instant EndsAt { get; set; }
}

/// <summary>Tries of passwords or codes that failed, for one account from one place.</summary>
public sealed class TryRow
{
    /// <summary>SHA-256 of what is tried, and from where: it names nobody.</summary>
    public required byte[] KeyHash { get; set; }
    public int Count { get; set; }
    public Instant Last { get; set; }
}

/// <summary>What an agency has set for signing in; an agency without a row has what a new row says.</summary>
public sealed class SignInRuleRow
{
    public int AgencyId { get; set; }
    public bool FamiliesNeedSecondFactor { get; set; }
    public required string Reason { get; set; }
    public int By { get; set; }
    public Instant At { get; set; }
    public int Version { get; set; }
}

/// <summary>Who an account is at an agency's identity provider. Never found by an e-mail address.</summary>
public sealed class ProviderLinkRow
{
    public required string Issuer { get; set; }

    /// <summary>The issuer's own name for the person (claim <c>sub</c>); two issuers may use the same one for two people.</summary>
    public required string Subject { get; set; }
    public long AccountId { get; set; }
    public Instant Since { get; set; }
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
