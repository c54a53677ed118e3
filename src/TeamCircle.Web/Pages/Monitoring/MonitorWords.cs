using NodaTime;
using TeamCircle.Core.Disputes;
using TeamCircle.Core.Monitoring;
using TeamCircle.Data.Calendar;
using TeamCircle.Data.Monitoring;
using TeamCircle.Web.Pages.Commitments;
using TeamCircle.Web.Ui;

namespace TeamCircle.Web.Pages.Monitoring;

/// <summary>What the monitor shows, in words.</summary>
internal static class MonitorWords
{
    public static string Delay(int? minutes) => minutes is { } some ? EntryDelay.Words(Duration.FromMinutes(some)) : "";

    /// <summary>What it says about counting, as the audit says it.</summary>
    public static string Policy(PolicyView policy) => string.Join(" ", AuditWords.Policy(policy.Policy));

    /// <summary>When it was recorded, with whom, and why.</summary>
    public static string PolicyTrace(PolicyView policy) =>
        $"Recorded on {Say.Date(policy.RecordedOn)}{(policy.SecondPerson is { } second ? $", agreed by {second}" : "")}{(policy.Reason is { } reason ? $": {reason}" : "")}";

    /// <summary>12 of 340 files with a service of occupational therapy in Period 1</summary>
    public static string Drawn(SampleListed sample) =>
        $"{Say.Number(sample.Files)} of {Say.Count(sample.Population, "file")} with {(sample.Discipline is { } discipline ? $"a service of {Core.Words.Of(discipline)}" : "a service")} in {sample.Period}";

    public static string Answer(FileAnswer answer) => answer switch
    {
        FileAnswer.Yes => "yes",
        FileAnswer.No => "no",
        _ => "not applicable",
    };
}
