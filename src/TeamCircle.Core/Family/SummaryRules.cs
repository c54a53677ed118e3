using NodaTime;
using TeamCircle.Core.People;

namespace TeamCircle.Core.Family;

/// <summary>Who writes and publishes a summary, and what must be in it.</summary>
public static class SummaryRules
{
    public const int LongestWords = 6000, LongestReason = 400, LongestName = 100;

    /// <summary>The longest span that one summary tells of: a term and a bit. Our choice.</summary>
    public const int MostDays = 140;

    /// <summary>The case manager alone writes, publishes, withdraws and corrects.</summary>
    public static bool MayWrite(Caller caller, int learner) => caller.IsStaff && caller.Manages(learner);

    /// <summary>A goal's plain words come from whoever owns it, or the case manager.</summary>
    public static bool MayWritePlain(Caller caller, int learner, IEnumerable<int> owners) =>
        caller.IsStaff && (caller.Manages(learner) || (caller.OnTeam(learner) && owners.Contains(caller.PersonId)));

    /// <summary>All problems of the days that a summary is to tell of.</summary>
    public static IEnumerable<Problem> CheckSpan(LocalDate? first, LocalDate? last, LocalDate today)
    {
        if (first is not { } from)
            yield return new("From", "Give the first day.");
        if (last is not { } to || to > today || to < first)
            yield return new("To", "Give the last day: not before the first one, and not later than today.");
        else if (first is { } start && Period.DaysBetween(start, to) >= MostDays)
            yield return new("From", $"A summary tells of {MostDays} days at the most. Begin later.");
    }

    /// <summary>All problems of what was typed.</summary>
    public static IEnumerable<Problem> CheckContent(SummaryContent content)
    {
        foreach (var (field, both) in Parts(content))
        {
            if (both.English?.Length > LongestWords || both.Spanish?.Length > LongestWords)
                yield return new(field, $"Keep each text under {LongestWords} letters.");
        }
        if (content.SeenBy?.Length > LongestName)
            yield return new("SeenBy", $"Keep it under {LongestName} letters.");
    }

    /// <summary>What stands in the way of publishing.</summary>
    public static IEnumerable<Problem> CheckReady(SummaryContent content)
    {
        if (content.Hers.IsEmpty)
            yield return new("", "Write one thing that was the child's own. No figure says it.");
        else if (content.SeenBy is null)
            yield return new("", "Say who saw what was the child's own.");
    }

    /// <summary>All problems of the reason for taking a summary back or for another edition.</summary>
    public static IEnumerable<Problem> CheckReason(string? reason)
    {
        if (string.IsNullOrWhiteSpace(reason) || reason.Trim().Length > LongestReason)
            yield return new("Why", $"Say why in under {LongestReason} letters.");
    }

    /// <summary>The English of a text against <see cref="ReadingLevel"/>, by the field that it is typed in; texts without English are left out.</summary>
    /// <remarks>Of the visits and of what comes next only lines without a figure are judged: the others are days, names and minutes, which raise the grade
    /// and cannot be said more plainly.</remarks>
    public static IEnumerable<(string Field, ReadingLevel Level)> Levels(SummaryContent content) =>
        from part in Parts(content)
        let english = part.Both.English ?? ""
        let level = ReadingLevel.Of(part.Field is "Visits" or "Next" ? string.Join('\n', english.Split('\n').Where(line => !line.Any(char.IsDigit))) : english)
        where level.Grade is not null
        select (part.Field, level);

    private static IEnumerable<(string Field, Both Both)> Parts(SummaryContent content)
    {
        yield return ("Visits", content.Visits);
        yield return ("Practised", content.Practised);
        for (var i = 0; i < content.Goals.Count; i++)
        {
            yield return ($"Goals[{i}].Words", content.Goals[i].Words);
            yield return ($"Goals[{i}].Progress", content.Goals[i].Progress);
        }
        yield return ("Hers", content.Hers);
        yield return ("Next", content.Next);
        yield return ("Home", content.Home);
    }
}
