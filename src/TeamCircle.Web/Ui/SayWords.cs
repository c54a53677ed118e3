using TeamCircle.Core;
using TeamCircle.Core.Calendar;
using TeamCircle.Core.Commitments;
using TeamCircle.Core.Learners;
using TeamCircle.Core.People;
using TeamCircle.Core.Progress;
using TeamCircle.Core.Sessions;
using TeamCircle.Core.Time;

namespace TeamCircle.Web.Ui;

public static partial class Say
{
    public static string Status(Status status) => StatusWords.Of(status);

    /// <summary>The status, with what qualifies it: the minutes within tolerance, that sessions gave it, what was decided not owed.</summary>
    public static string Status(in Balance balance)
    {
        var words = Status(balance.Status);
        if (balance.Status == Core.Commitments.Status.WithinTolerance)
            words += $" ({Minutes(balance.Minutes.Lack)})";
        if (balance.Worse == WorseUnit.Sessions)
            words += ", by sessions";
        return balance.Minutes.NotOwed > 0 ? $"{words}; {Number(balance.Minutes.NotOwed)} decided not owed" : words;
    }

    public static string Discipline(Discipline discipline) => Begin(Words.Of(discipline));

    /// <summary>What a visit is for: its service's discipline, or its kind where it is for none.</summary>
    public static string Visit(VisitKind kind, Discipline? discipline) => discipline is { } service ? Discipline(service) : VisitKind(kind);

    public static string VisitKind(VisitKind kind) => kind switch
    {
        Core.Calendar.VisitKind.Service => "Service",
        Core.Calendar.VisitKind.Evaluation => "Evaluation",
        Core.Calendar.VisitKind.PlanMeeting => "Plan meeting",
        _ => "Equipment and fitting",
    };

    public static string Away(AwayReason reason) => reason switch
    {
        AwayReason.Hospital => "in hospital",
        AwayReason.Illness => "ill",
        AwayReason.IllnessInTheHousehold => "illness in the household",
        AwayReason.Appointment => "an appointment",
        AwayReason.Travel => "travelling",
        _ => "another reason",
    };

    /// <summary>What a person of the discipline is called.</summary>
    public static string Profession(Discipline discipline) => discipline switch
    {
        Core.Learners.Discipline.Vision => "teacher of students with visual impairments",
        Core.Learners.Discipline.OccupationalTherapy => "occupational therapist",
        Core.Learners.Discipline.PhysicalTherapy => "physical therapist",
        Core.Learners.Discipline.AssistiveTechnology => "assistive-technology specialist",
        Core.Learners.Discipline.SpecialEducation => "special education teacher",
        Core.Learners.Discipline.ParentCounselingAndTraining => "parent trainer",
        Core.Learners.Discipline.OrientationAndMobility => "orientation and mobility specialist",
        _ => "speech-language therapist",
    };

    public static string Place(Place place) => place switch
    {
        Core.Learners.Place.Home => "at home",
        Core.Learners.Place.School => "at school",
        Core.Learners.Place.Community => "in the community",
        _ => "remote",
    };

    public static string WhoseTime(ServiceKind kind) => kind switch
    {
        ServiceKind.Direct => "the learner's own time (direct)",
        ServiceKind.Consultation => "adults' time (consultation)",
        ServiceKind.ParentCounselingAndTraining => "parents' time (counseling and training)",
        _ => "nobody else's time (indirect)",
    };

    public static string Format(SessionFormat format) => format == SessionFormat.Group ? "in a group" : "individual";

    public static string Terms(LineTerms terms) => terms switch
    {
        LineTerms.Regular => "in the ordinary school year",
        LineTerms.Extended => "in the extended school year",
        _ => "in the ordinary and the extended school year",
    };

    public static string Wording(Wording wording) => $"written as \"{Words.Of(wording)}\": promises no amount that can be judged";

    public static string Outcome(VisitOutcome outcome) => outcome switch
    {
        VisitOutcome.Given => "given",
        VisitOutcome.Offered => "offered, not taken up",
        VisitOutcome.NotOffered => "not offered",
        _ => "planned",
    };

    public static string Reason(Reason reason) => Words.Of(reason);

    public static string Side(ReasonSide side) => side switch
    {
        ReasonSide.ChildAndFamily => "child and family",
        ReasonSide.Agency => "agency",
        ReasonSide.Nobody => "nobody's side",
        _ => "side not known",
    };

    public static string Decision(DecisionKind kind) => kind switch
    {
        DecisionKind.NotOwed => "not owed",
        DecisionKind.MakeUp => "make up",
        _ => "team meeting",
    };

    public static string ProbeKind(ProbeKind kind) => kind == Core.Progress.ProbeKind.Probe
        ? "Probe: first chance of the day, no prompt, agreed conditions" : "Teaching data";

    public static string Measure(Measure measure) => measure switch
    {
        Core.Progress.Measure.PercentIndependent => "percent without help",
        Core.Progress.Measure.ResponsesOf => "responses of opportunities",
        Core.Progress.Measure.AveragePromptsNeeded => "average prompts needed",
        Core.Progress.Measure.OwnScale => "a scale of the team's own",
        _ => Words.Of(measure),
    };

    public static string Relation(Relation relation) => relation switch
    {
        Core.People.Relation.Team => "team",
        Core.People.Relation.CaseManager => "case manager",
        Core.People.Relation.Substitute => "substitute",
        Core.People.Relation.Assistant => "assistant",
        Core.People.Relation.Reviewer => "outside reviewer",
        _ => "family",
    };

    public static string Role(Role role) => role == Core.People.Role.Terminal ? "the agency's terminal" : Words.Of(role);

    public static string Part(TeachPart part) => part switch
    {
        TeachPart.ShowingThings => "Showing things",
        TeachPart.SignalYes => "Yes",
        TeachPart.SignalMore => "More",
        TeachPart.SignalNo => "No",
        TeachPart.SignalStop => "Stop",
        TeachPart.SignalTired => "Tired",
        TeachPart.SignalPain => "Pain",
        _ => Begin(Words.Of(part)),
    };

    /// <summary>Why minutes that were given count nothing.</summary>
    public static string Withheld(Core.Sessions.Withheld why) => why switch
    {
        Core.Sessions.Withheld.NotQualified => "counts 0 minutes: a substitute gave it who is not on record as qualified for this service",
        Core.Sessions.Withheld.AssistantsNotCounted => "counts 0 minutes: an assistant gave it, and the service does not count an assistant's minutes",
        _ => "not countersigned yet: counts 0 minutes until the supervisor has signed",
    };

    public static string ShortWindow(ShortWindow rule) => rule switch
    {
        Core.Commitments.ShortWindow.InFull => "owed in full",
        Core.Commitments.ShortWindow.Prorated => "owed by the school days that are left",
        _ => "owed in full from half of the school days on, else nothing",
    };

    /// <summary>What a promise comes to: 60 minutes a week in 2 sessions; 30 to 60 minutes a month.</summary>
    public static string Promise(int minutes, int? minutesTo, int? sessions, Every every)
    {
        var amount = minutesTo is { } most ? $"{Number(minutes)} to {Minutes(most)}" : Minutes(minutes);
        return sessions is { } times ? $"{amount} {Every(every)} in {Sessions(times)}" : $"{amount} {Every(every)}";
    }
}
