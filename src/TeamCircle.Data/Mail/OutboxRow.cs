using TeamCircle.Core.Mail;

namespace TeamCircle.Data.Mail;

/// <summary>
/// A mail that is to go out, written in the transaction of its cause. It holds what is needed to write the mail when it is sent, and
/// no name, note or figure of a learner.
/// </summary>
public sealed class OutboxRow : IAgencyRow
{
    public int AgencyId { get; set; }

    /// <summary>Made when it is queued; the Message-ID of every try comes of it.</summary>
    public Guid Id { get; set; }
    public int PersonId { get; set; }
    public MailKind Kind { get; set; }

    /// <summary>Whose family it goes to; null for staff and for links.</summary>
    public int? LearnerId { get; set; }

    /// <summary>The hour of a digest, in the person's own zone: each is queued once. Null for all others.</summary>
    public LocalDateTime? Slot { get; set; }

    /// <summary>Not sent before; null until the sender has seen it and set how long it gathers.</summary>
    public Instant? NotBefore { get; set; }
    public MailState State { get; set; }
    public int Tries { get; set; }

    /// <summary>The tail of the link in it, under the portal's data protection; null once it was sent or never will be.</summary>
    public string? Secret { get; set; }

    /// <summary>SHA-256 of the tail of the address that unsubscribes; null for a link and before the first try.</summary>
    public byte[]? TokenHash { get; set; }

    /// <summary>When it was sent, stopped or given up.</summary>
    public Instant? EndedAt { get; set; }

    /// <summary>What the mail server said last, or why it was stopped, in words without an address.</summary>
    public string? Answer { get; set; }

    /// <summary>The same for every try, whatever the settings are by then.</summary>
    public string MessageId => MessageIdOf(Id);

    internal static string MessageIdOf(Guid id) => $"{id:N}@teamcircle.invalid";
}

/// <summary>How far a mail has come.</summary>
public enum MailState
{
    Queued,

    /// <summary>A try has begun. It stays so where the portal ended in the middle of it, and is then tried again.</summary>
    Sending,
    Sent,

    /// <summary>It was not to go out any more: quiet, a choice, a relation that ended, or nothing to say.</summary>
    Stopped,

    /// <summary>Given up after the last try, or refused for good.</summary>
    Failed,
}
