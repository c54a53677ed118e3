namespace TeamCircle.Core.Mail;

/// <summary>What a mail server made of a mail.</summary>
public enum MailOutcome
{
    Accepted,

    /// <summary>It may be tried again: no answer, busy, a mailbox that is full.</summary>
    Later,

    /// <summary>It will be refused again: no such mailbox, not allowed.</summary>
    Refused,
}

/// <param name="Words">For the administrator, without an address.</param>
public sealed record MailAnswer(MailOutcome Outcome, string Words);
