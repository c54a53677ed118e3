using System.Globalization;
using NodaTime;
using TeamCircle.Core.Commitments;
using TeamCircle.Data.Calendar;
using TeamCircle.Data.Commitments;
using TeamCircle.Web.Ui;

namespace TeamCircle.Web.Pages.Commitments;

/// <summary>The policy, and what is to check, in words.</summary>
public static class AuditWords
{
    /// <summary>Of an audit that a standby answered: up to when that is whole, to the second, in the agency's time.</summary>
    public static string Held(LocalDateTime until) => string.Create(
        CultureInfo.InvariantCulture, $"As saved up to {until.Hour:00}:{until.Minute:00}:{until.Second:00}: read from a standby of the database, which follows it.");

    /// <summary>The agency's policy for a period, a sentence each.</summary>
    public static IEnumerable<string> Policy(Policy policy)
    {
        yield return $"A week or month with fewer school days than usual is {Say.ShortWindow(policy.ShortWindow)}, unless the plan says otherwise.";
        yield return policy.Surplus == Surplus.EachWindowAlone
            ? "Each window stands alone: what is given beyond it does not pay for another."
            : "Within the reporting period, what is given beyond one window pays for another.";
        yield return policy.SessionShare == 100
            ? "A visit counts as one of the promised sessions where it has the full length of a session."
            : $"A visit counts as one of the promised sessions from {policy.SessionShare} % of the length of a session on.";
        yield return policy.TolerancePercent == 0
            ? "There is no tolerance."
            : $"After the period up to {policy.TolerancePercent} % of the minutes due may lack and is called within tolerance, never met.";
    }

    /// <summary>Where the policy is written, with its own words; null where nobody entered them.</summary>
    public static string? Written(PolicyRow? row) => (row?.PolicyWords, row?.WrittenIn) switch
    {
        (null, null) => null,
        (var words, null) => $"In the agency's words: \"{words}\"",
        (null, var place) => $"Written in {place}.",
        var (words, place) => $"In the agency's words: \"{words}\" ({place})",
    };

    /// <summary>Wren Belmares: probes, looking (Odalys Ferreira).</summary>
    public static string Topic(Audit audit, CommitmentLine line) => $"{audit.Names.Learners[line.LearnerId].Name}: {StandingWords.Topic(line, audit.Names.Person)}";

    /// <summary>30 minutes and 1 session; 2 probes.</summary>
    public static string Undecided(AuditLine line)
    {
        var (amount, sessions) = (line.Balance.Minutes.Undecided, line.Balance.Sessions.Undecided);
        List<string> parts = [];
        if (amount > 0)
            parts.Add(line.Line.IsProbes ? Say.Probes(amount) : Say.Minutes(amount));
        if (sessions > 0)
            parts.Add(Say.Sessions(sessions));
        return Say.List(parts);
    }

    /// <summary>What a kind of check is called, for a heading.</summary>
    public static string Heading(CheckKind kind) => kind switch
    {
        CheckKind.OutsideTheDates => "Given outside the dates, or where no school day is",
        CheckKind.NamesNoWindow => "Make-up visits for a day on which nothing was owed",
        CheckKind.IgnoredDecision => "Decisions about a day on which nothing was owed",
        CheckKind.NeverLogged => "Planned and not logged",
        CheckKind.ByOther => "Given by somebody who was not named for it",
        CheckKind.OtherPlace => "Given at another place than promised",
        CheckKind.OtherFormat => "Given in another format than promised",
        CheckKind.CannotJudge => "Can't be judged as written",
        CheckKind.YearBeyondCalendar => "The plan year reaches beyond the calendar",
        _ => "Windows that close in no reporting period",
    };

    /// <summary>Why it is listed and what helps.</summary>
    public static string Why(CheckKind kind) => kind switch
    {
        CheckKind.OutsideTheDates => "These count for nothing. Correct the visit's day, the make-up's day, or amend the plan's dates.",
        CheckKind.NamesNoWindow or CheckKind.IgnoredDecision => "These count for nothing until the day is corrected.",
        CheckKind.NeverLogged => "Log each as given, offered and not taken up, or not offered. Until then they count for nothing.",
        CheckKind.ByOther or CheckKind.OtherPlace or CheckKind.OtherFormat => "The minutes count. Whether it is what the plan promises is for people to say.",
        CheckKind.CannotJudge => "The plan's words promise no amount. The team can amend them.",
        CheckKind.YearBeyondCalendar => "The days after the last term are expected from the year before, not known. Enter the next school year.",
        _ => "Nothing judges them. Enter a reporting period that holds the days on which they close.",
    };

    /// <summary>How much of it: 2 visits; 1 decision; empty where a number says nothing.</summary>
    public static string Amount(LineCheck check, bool isProbes) => check.Kind switch
    {
        CheckKind.CannotJudge or CheckKind.YearBeyondCalendar => "",
        CheckKind.IgnoredDecision => Say.Count(check.Count, "decision"),
        CheckKind.ClosesInNoPeriod => Say.Count(check.Count, "window"),
        _ => isProbes ? Say.Probes(check.Count) : Say.Count(check.Count, "visit"),
    };
}
