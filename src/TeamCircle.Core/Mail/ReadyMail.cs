namespace TeamCircle.Core.Mail;

/// <summary>A mail as it is given to the mail server.</summary>
/// <param name="MessageId">The same for each try.</param>
/// <param name="To">The address alone: a name in front of it could be one that says whose family it is.</param>
/// <param name="Agency">The agency's name, for the sender's.</param>
/// <param name="UnsubscribeKey">The tail of the address that stops the kind; null where nothing can.</param>
public sealed record ReadyMail(string MessageId, string To, string Agency, MailText Text, string? UnsubscribeKey);
