using NodaTime;
using TeamCircle.Core.People;
using TeamCircle.Core.Sessions;

namespace TeamCircle.Core.Calendar;

/// <summary>Who may plan which visits, and what a visit's time must look like.</summary>
public static class CalendarRules
{
    /// <summary>Visits are written as far as this many days from today, if the plan goes on for so long.</summary>
    public const int MostDaysAhead = 400;

    /// <summary>Providers and assistants plan their own visits, the case manager all of the learner. A substitute plans none.</summary>
    /// <param name="provider">The person who gives the visit.</param>
    public static bool MayPlan(Caller caller, int learner, int provider) =>
        caller.IsStaff && (caller.Manages(learner) || (provider == caller.PersonId && Stands(caller, learner)));

    /// <summary>Whoever works with the learner may say that they are away; a substitute may not.</summary>
    public static bool MayEnterAway(Caller caller, int learner) => caller.IsStaff && (caller.Manages(learner) || Stands(caller, learner));

    /// <summary>All problems of a start and a length; none where they make a visit.</summary>
    public static IEnumerable<Problem> CheckTime(LocalTime? start, int? minutes)
    {
        if (start is null)
            yield return new("Start", "Give the time at which it begins, such as 9:30.");
        if (minutes is not (>= 1 and <= SessionRules.LongestMinutes))
            yield return new("Minutes", "Give its length in minutes, from 1 to 720.");
        else if (start is { } from && from.TickOfDay + minutes * NodaConstants.TicksPerMinute >= NodaConstants.TicksPerDay)
            yield return new("Minutes", "A visit ends on the day on which it begins. Schedule two for one that goes over midnight.");
    }

    /// <summary>The reason that stands on a visit which a time away calls off.</summary>
    public static Reason ReasonOf(AwayReason away) => away switch
    {
        AwayReason.Hospital => Reason.LearnerInHospital,
        AwayReason.Illness => Reason.LearnerUnwell,
        AwayReason.IllnessInTheHousehold => Reason.IllnessInTheHousehold,
        AwayReason.Appointment => Reason.MedicalAppointment,
        AwayReason.Travel => Reason.FamilyAway,
        _ => Reason.Other,
    };

    private static bool Stands(Caller caller, int learner) =>
        caller.Stands(learner, Relation.Team) || caller.Stands(learner, Relation.Assistant);
}
