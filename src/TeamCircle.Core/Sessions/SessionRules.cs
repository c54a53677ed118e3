using System.Globalization;
using TeamCircle.Core.Learners;
using TeamCircle.Core.Time;

namespace TeamCircle.Core.Sessions;

/// <summary>What may be recorded about a visit. Problems refuse it; notices are shown and it is stored all the same.</summary>
/// <remarks>
/// What really happened must be recordable: given by somebody else, elsewhere, or outside the service's dates is a notice.
/// Problems are for what contradicts itself or cannot have happened yet.
/// </remarks>
public static class SessionRules
{
    /// <summary>The longest visit, as in files that an agency brings.</summary>
    public const int LongestMinutes = 12 * 60;

    public const string WaitsForPartner = "The other person has to confirm the co-treatment; until then it counts for this service only.";

    /// <summary>The verdict, or all problems at once.</summary>
    public static Outcome<SessionVerdict> Check(SessionEntry entry, SessionSituation situation)
    {
        Problem[] problems = [.. Times(entry, situation), .. Reasons(entry, situation), .. Together(entry, situation), .. MakeUps(entry, situation), .. Awards(entry, situation)];
        if (problems.Length > 0)
            return Outcome<SessionVerdict>.Refused(problems);
        var giver = situation.Service.Giver;
        var withheld = entry.Outcome == VisitOutcome.Given ? giver.Withholds(isCountersigned: false) : null;
        return Outcome<SessionVerdict>.Of(
            new(entry, withheld is null ? SessionCredit.Of(entry, situation.Service.CoTreatment) : 0, [.. Notices(entry, situation), .. OfGiver(withheld)])
            {
                Withheld = withheld,
                Supervisor = giver.Supervisor,
            });
    }

    private static IEnumerable<string> OfGiver(Withheld? withheld) => withheld switch
    {
        Withheld.NotQualified => ["Whoever gave it is not on record as qualified for this service: the visit is kept, and counts 0 minutes."],
        Withheld.AssistantsNotCounted => ["An assistant's minutes do not count for this service: the visit is kept, and counts 0 minutes."],
        Withheld.NotCountersigned => ["It counts once the supervisor has countersigned it."],
        _ => [],
    };

    private static IEnumerable<Problem> Times(SessionEntry entry, SessionSituation situation)
    {
        if (entry.End <= entry.Start)
            yield return new("End", "The end must come after the start. A visit over midnight is logged as two, each on its own day.");
        else if (entry.Minutes > LongestMinutes)
            yield return new("End", "A visit lasts at most 12 hours.");
        if (entry.NotCounted < 0)
            yield return new("NotCounted", "Minutes that do not count cannot be negative.");
        else if (entry.NotCounted > Math.Max(0, entry.Minutes))
            yield return new("NotCounted", "More minutes do not count than the visit lasted.");
        if (entry.Outcome is not (VisitOutcome.Given or VisitOutcome.Offered))
            yield break;
        if (entry.OnDay > situation.Now.Date)
            yield return new("OnDay", "That day is still to come. What has not happened yet cannot be logged as given or offered.");
        else if (entry.OnDay + entry.End > situation.Now)
            yield return new("End", "That time is still to come. Log the visit when it has ended.");
    }

    private static IEnumerable<Problem> Reasons(SessionEntry entry, SessionSituation situation)
    {
        if (entry.Outcome == VisitOutcome.Planned)
            yield return new("Outcome", "Say what became of the visit.");
        else if (entry is { Outcome: VisitOutcome.Offered or VisitOutcome.NotOffered, Reason: null })
            yield return new("Reason", "Choose the reason why it was not given.");
        else if (entry is { Outcome: VisitOutcome.Given, Reason: not null } && CutShortBy(entry, situation) <= 0)
            yield return new("Reason", "A reason belongs to a visit that was not given or was shorter than planned. This one was neither.");
    }

    private static IEnumerable<Problem> Together(SessionEntry entry, SessionSituation situation)
    {
        if (!entry.WithPartner)
        {
            if (entry.SharedMinutes is not null)
                yield return new("SharedMinutes", "Shared minutes belong to a co-treatment. Name the person who treated together with you.");
            yield break;
        }
        if (situation.Service.CoTreatment == CoTreatment.None)
            yield return new("PartnerId", "The plan does not provide for co-treatment in this service. Write who else was there instead.");
        if (entry.Outcome != VisitOutcome.Given || situation.Service.CoTreatment != CoTreatment.Shared)
            yield break;
        if (entry.SharedMinutes is not { } shared)
            yield return new("SharedMinutes", "This service shares the minutes of a co-treatment. State how many are this service's.");
        else if (shared < 0 || shared > Math.Max(0, entry.Minutes - entry.NotCounted))
            yield return new("SharedMinutes", "The minutes stated must lie between 0 and the minutes that count.");
    }

    private static IEnumerable<Problem> MakeUps(SessionEntry entry, SessionSituation situation)
    {
        if (entry.PaysOn is { } day && situation.Service.Windows.Find(Day.Of(day)) < 0 && !situation.Service.BroughtByFile.Contains(day))
            yield return new("PaysOn", "Nothing of this service was owed around that day. Name a school day of the week, month or period that this makes up for.");
    }

    private static IEnumerable<Problem> Awards(SessionEntry entry, SessionSituation situation)
    {
        if (entry.AwardId is not { } award)
            yield break;
        if (entry.PaysOn is not null)
            yield return new("PaysOn", "A visit for an award of compensatory services pays for nothing else. Choose one of the two.");
        if (!situation.Service.Awards.Any(a => a.Id == award))
            yield return new("AwardId", "That award is not given by this service.");
    }

    private static IEnumerable<string> OfAward(SessionEntry entry, AwardTerms award)
    {
        if (!award.MayGive)
            yield return "Given otherwise than awarded: the paper names others who may give it.";
        if (entry.OnDay < award.From || entry.OnDay > award.Until)
            yield return "Outside the dates of the award. It counts for the award all the same; whether it stands is for people to say.";
    }

    private static IEnumerable<string> Notices(SessionEntry entry, SessionSituation situation)
    {
        var service = situation.Service;
        if (entry.Outcome == VisitOutcome.NotOffered)
            yield break;
        var award = service.Awards.FirstOrDefault(a => a.Id == entry.AwardId);
        foreach (var notice in award is null ? [] : OfAward(entry, award))
            yield return notice;
        if (award is null && !service.Assigned)
            yield return "Given otherwise than promised: this person is not assigned to the service on that day.";
        if (entry.Place != service.Place)
            yield return $"Given otherwise than promised: the plan says {Words.Of(service.Place)}, this was {Words.Of(entry.Place)}.";
        if (entry.Format != service.Format)
            yield return $"Given otherwise than promised: the plan says {Words.Of(service.Format)}, this was {Words.Of(entry.Format)}.";
        if (entry.Outcome != VisitOutcome.Given)
            yield break;
        if (entry.PaysOn is null && award is null && !service.Dates.Holds(Day.Of(entry.OnDay)))
            yield return "Outside the dates of the service: these minutes will count for nothing.";
        else if (entry.PaysOn is null && award is null && service.Windows.FindOwn(Day.Of(entry.OnDay)) < 0)
            yield return "The service has no school day around this date: these minutes will count for nothing.";
        if (entry.Reason is null && CutShortBy(entry, situation) is > 0 and var missing)
            yield return string.Create(CultureInfo.InvariantCulture, $"{missing} minutes shorter than planned, and no reason is recorded.");
        if (entry.WithPartner)
            yield return WaitsForPartner;
    }

    /// <summary>Minutes that a given visit fell short of its plan; 0 or less where it did not, or nothing was planned.</summary>
    private static int CutShortBy(SessionEntry entry, SessionSituation situation) =>
        situation.Planned is { } planned ? planned.Minutes - entry.Minutes : 0;
}
