using TeamCircle.Core.Calendar;
using TeamCircle.Core.Commitments;
using TeamCircle.Core.Learners;
using TeamCircle.Core.Sessions;
using TeamCircle.Data.Calendar;
using TeamCircle.Data.Commitments;
using TeamCircle.Data.Family;

namespace TeamCircle.Web.Ui;

/// <summary>
/// What families read, in English: every sentence of their page is made here, so that another language is another set of
/// these sentences. No code, status or abbreviation of the staff pages appears in them.
/// </summary>
/// <param name="Child">The name by which the page calls the child.</param>
/// <param name="CaseManager">Whom to ask; null where there is nobody.</param>
public sealed record FamilyWords(string Child, string? CaseManager)
{
    public string Title => $"{Child}: who comes, and what was given";

    public static string Service(Discipline discipline) => discipline switch
    {
        Discipline.Vision => "vision teaching",
        Discipline.SpeechLanguage => "speech and language therapy",
        Discipline.ParentCounselingAndTraining => "parent counseling and training",
        _ => Core.Words.Of(discipline),
    };

    /// <summary>What a visit is for, to stand in a sentence.</summary>
    private static string For(FamilyVisit visit) => visit.Discipline is { } discipline ? Service(discipline) : visit.Kind switch
    {
        VisitKind.Evaluation => "an evaluation",
        VisitKind.PlanMeeting => "a meeting about the plan",
        _ => "equipment and fitting",
    };

    public static string Member(FamilyMember member)
    {
        var words = member.Disciplines.Select(Say.Profession).ToList();
        if (member.IsCaseManager)
            words.Add("case manager: the person to ask");
        return Say.Begin(words.Count == 0 ? "on the team" : string.Join(", ", words));
    }

    /// <summary>A visit to come, or one that will not be.</summary>
    public string Coming(FamilyVisit visit)
    {
        if (visit.State == VisitState.CalledOff)
            return $"{visit.Provider} does not come{Because(visit.Reason)}.";
        if (visit.State == VisitState.Logged)
            return Before(visit);
        var extra = (visit.IsMakeUp ? "; an extra visit to catch up" : "") + (visit.Expected is { } late ? $"; a little later, about {Say.Time(late)}" : "");
        return visit.Place switch
        {
            Place.Home => $"{visit.Provider} comes for {For(visit)}{extra}.",
            Place.School => $"{visit.Provider} gives {For(visit)} at school{extra}.",
            Place.Community => $"{visit.Provider} gives {For(visit)} away from home{extra}.",
            _ => $"{visit.Provider} meets you by phone or screen for {For(visit)}{extra}.",
        };
    }

    /// <summary>What became of a visit.</summary>
    public string Before(FamilyVisit visit) => (visit.State, visit.Outcome) switch
    {
        (VisitState.CalledOff, _) => $"{visit.Provider} did not come{Because(visit.Reason)}.",
        (_, VisitOutcome.Given) => $"{visit.Provider} gave {Say.Minutes(visit.Given)} of {For(visit)}"
            + $"{(visit.IsMakeUp ? ", an extra visit to catch up" : "")}{(visit.Reason is null ? "" : $"; it was cut short{Because(visit.Reason)}")}.",
        (_, VisitOutcome.Offered) => $"{visit.Provider} was there for {For(visit)}, but it did not take place{Because(visit.Reason)}.",
        (_, VisitOutcome.NotOffered) => $"{Say.Begin(For(visit))} with {visit.Provider} did not take place{Because(visit.Reason)}.",
        _ => $"{visit.Provider} was to give {For(visit)}. What became of it is not written down yet.",
    };

    /// <summary>Where we are with the minutes of a service: one sentence, and one more where people decided something.</summary>
    public static string Minutes(StandingLine standing)
    {
        var balance = standing.Balance;
        if (balance.Status == Status.CannotJudge)
            return "The plan names no number of minutes that can be counted.";
        if (balance.Minutes.Owed == 0 && balance.Open.Windows > 0)
            return $"{Say.Minutes(balance.Open.Given)} of the {Say.Number(balance.Open.Owed)} promised for the whole plan year were given so far.";
        if (balance.Minutes.Owed == 0)
            return "No minutes are due in this part of the school year.";
        return balance.Minutes.DueSoFar == 0 && balance.Minutes.Lack > 0 ? NothingDueYet(balance.Minutes)
            : balance.Status == Status.NothingLeftDue ? "Nothing more is due in this part of the school year."
            : Given(balance);
    }

    /// <summary>What the team decided need not be made up, and when the family was told.</summary>
    public static string NotOwed(FamilyDecision decision)
    {
        var told = decision.ToldOn is { } day ? $"you were told on {Say.Day(day)}" : "we have not written down when you were told";
        return $"Of what was not given around {Say.Day(decision.On)}, the team decided on {Say.Day(decision.DecidedOn)} that "
            + $"{Say.Minutes(decision.Minutes)} need not be made up; {told}.";
    }

    public string Ask => CaseManager is null
        ? "Nobody is named as case manager at the moment: ask anybody on the team."
        : $"Ask {CaseManager} about anything on this page, or to see the record of who has looked at it.";

    private static string NothingDueYet(in PeriodBalance minutes) =>
        $"Nothing is due yet; {Say.Minutes(minutes.Due)} are promised in this part of the school year.";

    private static string Given(in Balance balance)
    {
        var minutes = balance.Minutes;
        var isOver = balance.Status is Status.NotMet or Status.WithinTolerance;
        if (minutes.LackSoFar == 0)
            return $"All {Say.Minutes(minutes.DueSoFar)} due so far were given.";
        var sum = $"{Say.Number(minutes.GivenSoFar)} of the {Say.Minutes(minutes.DueSoFar)} due so far were given";
        return isOver
            ? $"{sum}; {Say.Minutes(minutes.LackSoFar)} were not given."
            : $"{sum}; {Say.Minutes(minutes.LackSoFar)} not yet given; plan: {Plan(balance.Status)}.";
    }

    private static string Plan(Status status) => status switch
    {
        Status.CatchingUp => "extra visits to catch up have their dates",
        Status.CannotFit => "the time left is too short, so the team decides with you how to go on",
        _ => "the extra visits to catch up have no dates yet",
    };

    private string Because(Reason? reason) => reason is { } why ? $": {Why(why)}" : "";

    private string Why(Reason reason) => reason switch
    {
        Reason.LearnerUnwell => $"{Child} was ill",
        Reason.LearnerInHospital => $"{Child} was in hospital",
        Reason.MedicalAppointment => $"{Child} had a medical appointment",
        Reason.LearnerAsleepOrNotAlert => $"{Child} was asleep or not awake enough",
        Reason.NobodyHome => "nobody was at home",
        Reason.NoAdultAtHome => "no adult was at home",
        Reason.IllnessInTheHousehold => "somebody at home was ill",
        Reason.FamilyAskedToMove => "changed at the family's request",
        Reason.FamilyAway => "the family was away",
        Reason.ProviderUnwell or Reason.ProviderInTrainingOrMeeting or Reason.NobodyAssigned or Reason.EvaluationOrMeetingInstead => "we could not send anybody",
        Reason.EquipmentOutOfOrder => "equipment was out of order",
        Reason.NoInterpreter => "no interpreter could come",
        Reason.WeatherOrEmergency => "weather or an emergency",
        Reason.SchoolClosed => "there was no school that day",
        Reason.UnsafeToEnter => "it was not safe to come in",
        Reason.Other => "another reason",
        _ => "no reason was written down",
    };
}
