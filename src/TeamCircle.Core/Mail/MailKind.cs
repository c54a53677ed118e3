using NodaTime;
using TeamCircle.Core.People;

namespace TeamCircle.Core.Mail;

/// <summary>What a mail is for. None holds a name, a note or a figure of a learner.</summary>
public enum MailKind
{
    /// <summary>The link by which a person joins the agency.</summary>
    Invitation,

    /// <summary>The link by which a person sets a new password.</summary>
    NewPassword,

    /// <summary>The link that shows that a new e-mail address is its owner's; it goes to that address.</summary>
    NewEmail,

    /// <summary>Tells somebody that a password, an address or a second factor of theirs has changed. Nobody can stop it.</summary>
    SignInChanged,

    /// <summary>A digest for providers: how many of their own things wait.</summary>
    VisitsAndMinutes,

    /// <summary>A digest for case managers: how many decisions wait.</summary>
    WaitingForYourDecision,

    /// <summary>Before a week closes, where something in it still lacks or an outer date is near: for who got no digest since its day.</summary>
    Reminder,

    /// <summary>For a family: a summary was published.</summary>
    NewSummary,

    /// <summary>For a family: visits to come were moved or called off; many changes are one mail.</summary>
    VisitChanged,
}

/// <summary>What holds of each kind, whoever gets it.</summary>
public static class MailKinds
{
    /// <summary>Links that somebody needs to sign in: nobody can stop them, and they wait for no hour.</summary>
    public static bool IsLink(MailKind kind) => kind is MailKind.Invitation or MailKind.NewPassword or MailKind.NewEmail;

    /// <summary>Gathered for a day and an hour that the person chose.</summary>
    public static bool IsDigest(MailKind kind) => kind is MailKind.VisitsAndMinutes or MailKind.WaitingForYourDecision;

    /// <summary>How late a mail with an hour of its own may be. A digest that is later is skipped: what it would say is counted anew in the
    /// next one. A reminder is caught up, once, as long as its week lasts. The numbers are ours.</summary>
    public static Duration Latest(MailKind kind) => kind is MailKind.Reminder ? Duration.FromDays(3) : Duration.FromHours(12);

    /// <summary>The kinds that somebody in these roles gets, and may choose among.</summary>
    public static IReadOnlyList<MailKind> For(IReadOnlySet<Role> roles) =>
    [
        .. roles.Contains(Role.Provider) || roles.Contains(Role.CaseManager) ? [MailKind.VisitsAndMinutes, MailKind.Reminder] : Array.Empty<MailKind>(),
        .. roles.Contains(Role.CaseManager) ? [MailKind.WaitingForYourDecision] : Array.Empty<MailKind>(),
        .. roles.Contains(Role.Family) ? [MailKind.NewSummary, MailKind.VisitChanged] : Array.Empty<MailKind>(),
    ];

    public static bool IsForFamily(MailKind kind) => kind is MailKind.NewSummary or MailKind.VisitChanged;
}

/// <summary>The language of mails to a family; staff get English.</summary>
public enum MailLanguage
{
    English,
    Spanish,
}
