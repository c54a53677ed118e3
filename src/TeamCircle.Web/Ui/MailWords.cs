using Microsoft.AspNetCore.Mvc.Rendering;
using NodaTime;
using TeamCircle.Core.Account;
using TeamCircle.Core.Family;
using TeamCircle.Core.Mail;
using TeamCircle.Data.Jobs;
using TeamCircle.Data.Mail;

namespace TeamCircle.Web.Ui;

/// <summary>The words of mails and of what the portal does by the clock.</summary>
public static class MailWords
{
    public static IReadOnlyList<IsoDayOfWeek> Days { get; } = [.. Enum.GetValues<IsoDayOfWeek>().Where(d => d is not IsoDayOfWeek.None)];

    public static IReadOnlyList<SelectListItem> Languages { get; } =
        [new("English", nameof(MailLanguage.English)), new("Español", nameof(MailLanguage.Spanish))];

    public static string Of(MailKind kind) => kind switch
    {
        MailKind.Invitation => "Link to join",
        MailKind.NewPassword => "Link for a new password",
        MailKind.NewEmail => "Link to a new address",
        MailKind.SignInChanged => "A change to signing in",
        MailKind.VisitsAndMinutes => "Visits and minutes",
        MailKind.WaitingForYourDecision => "Waiting for your decision",
        MailKind.Reminder => "Before the week closes",
        MailKind.NewSummary => OwnAccountWords.NewSummary.English,
        _ => OwnAccountWords.VisitChanged.English,
    };

    /// <summary>The kind in the reader's language: families get those of their own in Spanish too.</summary>
    public static string In(Language language, MailKind kind) => kind switch
    {
        MailKind.NewSummary => OwnAccountWords.NewSummary.In(language),
        MailKind.VisitChanged => OwnAccountWords.VisitChanged.In(language),
        _ => Of(kind),
    };

    public static string About(MailKind kind) => kind switch
    {
        MailKind.VisitsAndMinutes => "How many visits wait to be logged, and what this week still lacks; on days without one, a reminder before the week closes. Numbers only; none where nothing waits.",
        _ => "How many decisions wait. Numbers only; none where nothing waits.",
    };

    public static string Of(MailState state) => state switch
    {
        MailState.Queued or MailState.Sending => "waiting",
        MailState.Sent => "sent",
        MailState.Stopped => "stopped",
        _ => "failed",
    };

    /// <summary>The zones that people here may live in: those of the agency's part of the world first, then all.</summary>
    public static IEnumerable<SelectListItem> Zones(string agencyZone)
    {
        var part = agencyZone.Split('/')[0] + "/";
        var names = DateTimeZoneProviders.Tzdb.Ids.Where(z => z.Contains('/') && !z.StartsWith("Etc/", StringComparison.Ordinal))
            .OrderBy(z => !z.StartsWith(part, StringComparison.Ordinal)).ThenBy(z => z, StringComparer.Ordinal);
        return [new($"The agency's ({Zone(agencyZone)})", ""), .. names.Select(z => new SelectListItem(Zone(z), z))];
    }

    public static string Of(Job job) => job switch
    {
        Job.Sealing => "Sealing the trail of changes",
        Job.Series => "Writing series of visits on",
        Job.Digests => "Queueing digests and reminders",
        Job.Sending => "Sending mails",
        Job.Retention => "Proposing what is due to be destroyed",
        _ => "Ending what has outlived its time",
    };

    public static string About(Job job) => job switch
    {
        Job.Sealing => "Every four seconds. A record once an hour, where anything was changed.",
        Job.Series => "Each night from two o'clock, as far as plans go; visits of days whose closure was taken back too. Caught up once where it was missed.",
        Job.Digests => "Looks each minute whose hour has come. A digest that was missed by more than 12 hours is skipped, and counted anew in the next; a reminder before the week closes is caught up once.",
        Job.Sending => "Every few seconds, one portal at a time. A record where mails went or did not.",
        Job.Retention => "Each night from four o'clock, by the rules under Keeping and destroying; it destroys nothing. Caught up once where it was missed.",
        _ => "Each night from three o'clock: sign-ins that are over, links that no longer hold, devices not heard of for a year. Caught up once where it was missed.",
    };

    /// <summary>When a job comes next, seen from a moment in the agency's zone.</summary>
    public static string Next(Job job, LocalDateTime now, bool doneToday) => job switch
    {
        Job.Series => Night(now, 2, doneToday),
        Job.Expiry => Night(now, 3, doneToday),
        Job.Retention => Night(now, 4, doneToday),
        Job.Digests => "within a minute",
        _ => "within seconds",
    };

    private static string Night(LocalDateTime now, int hour, bool doneToday) =>
        doneToday ? $"tomorrow, {Say.Time(new(hour, 0))}" : now.Hour < hour ? $"today, {Say.Time(new(hour, 0))}" : "within the hour";

    private static string Zone(string name) => name.Replace('_', ' ');
}
