using NodaTime;
using TeamCircle.Core.Calendar;
using TeamCircle.Core.Commitments;
using TeamCircle.Core.Learners;
using TeamCircle.Core.Sessions;
using static TeamCircle.Core.Family.FamilyGlossary;

namespace TeamCircle.Core.Family;

/// <summary>What a family reads about visits and minutes, made from facts. No code, status or abbreviation of the staff pages appears in it.</summary>
/// <param name="Language">In which it is said.</param>
/// <param name="Child">The name by which the page calls the child.</param>
/// <param name="CaseManager">Whom to ask; null where there is nobody.</param>
public sealed record FamilySentences(Language Language, string Child, string? CaseManager)
{
    public FamilyDates Dates { get; } = new(Language);

    /// <summary>What the glossary says, with its blanks filled.</summary>
    public string Say(Phrase phrase, params string[] parts) => phrase.In(Language, parts);

    public string Ask => CaseManager is null ? AskNobody.In(Language) : FamilyGlossary.Ask.In(Language, CaseManager);

    /// <summary>The name of a service, to stand after "of".</summary>
    public string Service(Discipline discipline) => ServiceOf(discipline).In(Language);

    /// <summary>What somebody on the team does.</summary>
    public string Member(IEnumerable<Discipline> disciplines, bool isCaseManager)
    {
        var words = disciplines.Select(d => WorkOf(d).In(Language)).ToList();
        if (isCaseManager)
            words.Add(FamilyGlossary.CaseManager.In(Language));
        return FamilyDates.Begin(words.Count == 0 ? OnTheTeam.In(Language) : string.Join(", ", words));
    }

    /// <summary>A visit to come, or one that will not be.</summary>
    public string Coming(FamilyVisit visit)
    {
        if (visit.IsCalledOff)
            return DoesNotCome.In(Language, visit.Provider, Why(visit.Reason));
        if (visit.Outcome is not null)
            return Before(visit);
        var extra = (visit.IsMakeUp ? ExtraToCome.In(Language) : "") + (visit.Expected is { } late ? ALittleLater.In(Language, Dates.Time(late)) : "");
        var template = visit.Place switch { Place.Home => ComesHome, Place.School => AtSchool, Place.Community => AwayFromHome, _ => ByPhone };
        return template.In(Language, visit.Provider, For(visit), extra);
    }

    /// <summary>What became of a visit.</summary>
    public string Before(FamilyVisit visit) => (visit.IsCalledOff, visit.Outcome) switch
    {
        (true, _) => DidNotCome.In(Language, visit.Provider, Why(visit.Reason)),
        (_, VisitOutcome.Given) when visit.Withheld is { } why =>
            (why == Withheld.NotCountersigned ? CountsOnceSigned : CountsNoMinutes).In(Language, visit.Provider, For(visit)),
        (_, VisitOutcome.Given) => Gave.In(Language, visit.Provider, Dates.Minutes(visit.Given), Of(visit),
            (visit.IsMakeUp ? ExtraGiven.In(Language) : "") + (visit.Reason is null ? "" : CutShort.In(Language, Why(visit.Reason)))),
        (_, VisitOutcome.Offered) => WasThere.In(Language, visit.Provider, For(visit), Why(visit.Reason)),
        (_, VisitOutcome.NotOffered) => FamilyDates.Begin(FamilyGlossary.NotOffered.In(Language, For(visit), visit.Provider, Why(visit.Reason))),
        _ => NotWrittenDown.In(Language, visit.Provider, For(visit)),
    };

    /// <summary>Where we are with the minutes of a service, in one sentence.</summary>
    public string Minutes(in Balance balance)
    {
        var (sums, open) = (balance.Minutes, balance.Open);
        if (balance.Status == Status.CannotJudge)
            return CannotCount.In(Language);
        if (sums.Owed == 0)
            return open.Windows > 0 ? WholeYear.In(Language, Dates.Minutes(open.Given), FamilyDates.Number(open.Owed)) : NoneDue.In(Language);
        return sums.DueSoFar == 0 && sums.Lack > 0 ? NothingYet.In(Language, Dates.Minutes(sums.Due))
            : balance.Status == Status.NothingLeftDue ? NothingMore.In(Language)
            : sums.LackSoFar == 0 ? AllGiven.In(Language, Dates.Minutes(sums.DueSoFar))
            : Lacking(balance);
    }

    /// <summary>What the team decided need not be made up, and when the family was told.</summary>
    /// <param name="around">A day of what was not given.</param>
    /// <param name="toldOn">Null where nobody wrote it down.</param>
    public string NotOwed(LocalDate around, LocalDate decidedOn, int minutes, LocalDate? toldOn) => NeedNotBeMadeUp.In(
        Language, Dates.Day(around), Dates.Day(decidedOn), Dates.Minutes(minutes), toldOn is { } day ? ToldOn.In(Language, Dates.Day(day)) : NotToldOn.In(Language));

    /// <summary>What a visit is for, to stand after "for".</summary>
    public string For(FamilyVisit visit) => visit.Discipline is { } discipline ? TheService.In(Language, Service(discipline)) : Of(visit);

    private string Of(FamilyVisit visit) => visit.Discipline is { } discipline ? Service(discipline)
        : (visit.Kind switch { VisitKind.Evaluation => Evaluation, VisitKind.PlanMeeting => PlanMeeting, _ => Equipment }).In(Language);

    private string Lacking(in Balance balance)
    {
        var (sums, isOver) = (balance.Minutes, balance.Status is Status.NotMet or Status.WithinTolerance);
        var (given, due, lack) = (FamilyDates.Number(sums.GivenSoFar), Dates.Minutes(sums.DueSoFar), Dates.Minutes(sums.LackSoFar));
        var plan = balance.Status switch { Status.CatchingUp => PlanHasDates, Status.CannotFit => PlanWithYou, _ => PlanNoDates };
        return isOver ? NotGiven.In(Language, given, due, lack) : NotYetGiven.In(Language, given, due, lack, plan.In(Language));
    }

    private string Why(Reason? reason) => reason is { } why ? Because.In(Language, ReasonOf(why).In(Language, Child)) : "";

    private static Phrase ReasonOf(Reason reason) => reason switch
    {
        Reason.LearnerUnwell => Ill,
        Reason.LearnerInHospital => InHospital,
        Reason.MedicalAppointment => FamilyGlossary.MedicalAppointment,
        Reason.LearnerAsleepOrNotAlert => Asleep,
        Reason.NobodyHome => FamilyGlossary.NobodyHome,
        Reason.NoAdultAtHome => NoAdultHome,
        Reason.IllnessInTheHousehold => IllAtHome,
        Reason.FamilyAskedToMove => FamilyAsked,
        Reason.FamilyAway => FamilyGlossary.FamilyAway,
        Reason.ProviderUnwell or Reason.ProviderInTrainingOrMeeting or Reason.NobodyAssigned or Reason.EvaluationOrMeetingInstead => CouldNotSend,
        Reason.EquipmentOutOfOrder => EquipmentOut,
        Reason.NoInterpreter => FamilyGlossary.NoInterpreter,
        Reason.WeatherOrEmergency => Weather,
        Reason.SchoolClosed => NoSchool,
        Reason.UnsafeToEnter => NotSafe,
        Reason.Other => OtherReason,
        _ => NoReason,
    };

    private static Phrase ServiceOf(Discipline discipline) => discipline switch
    {
        Discipline.Vision => Vision,
        Discipline.OccupationalTherapy => OccupationalTherapy,
        Discipline.PhysicalTherapy => PhysicalTherapy,
        Discipline.AssistiveTechnology => AssistiveTechnology,
        Discipline.SpecialEducation => SpecialEducation,
        Discipline.ParentCounselingAndTraining => ParentCounselingAndTraining,
        Discipline.OrientationAndMobility => OrientationAndMobility,
        _ => SpeechLanguage,
    };

    private static Phrase WorkOf(Discipline discipline) => discipline switch
    {
        Discipline.Vision => VisionTeacher,
        Discipline.OccupationalTherapy => OccupationalTherapist,
        Discipline.PhysicalTherapy => PhysicalTherapist,
        Discipline.AssistiveTechnology => TechnologySpecialist,
        Discipline.SpecialEducation => SpecialTeacher,
        Discipline.ParentCounselingAndTraining => ParentTrainer,
        Discipline.OrientationAndMobility => MobilitySpecialist,
        _ => SpeechTherapist,
    };
}
