using TeamCircle.Core.Commitments;
using TeamCircle.Core.Learners;
using TeamCircle.Core.Time;

namespace TeamCircle.Data.Learners;

/// <summary>A learner's plans as written, beside our reading of them.</summary>
/// <param name="Plans">The latest first.</param>
public sealed record PlanPage(LearnerHead Learner, IReadOnlyList<PlanView> Plans)
{
    /// <summary>Null where the learner has no such service.</summary>
    public ServiceInPlan? Service(int id) => Plans.SelectMany(p => p.Services).FirstOrDefault(s => s.Id == id);

    /// <summary>Null where the learner has no such goal.</summary>
    public GoalInPlan? Goal(int id) => Plans.SelectMany(p => p.Goals).FirstOrDefault(g => g.Id == id);

    /// <summary>The plan to which a service belongs.</summary>
    public PlanView PlanOf(ServiceInPlan service) => Plans.First(p => p.Services.Contains(service));
}

public sealed record LearnerHead(int Id, string Code, string Name, int MostMinutesADay, string? SendingDistrict, int Version);

public sealed record PlanView(int Id, int Version, LocalDate StartDay, LocalDate EndDay, IReadOnlyList<ServiceInPlan> Services, IReadOnlyList<GoalInPlan> Goals);

/// <param name="Continues">The code of the service in whose place it came.</param>
/// <param name="Amounts">Oldest first.</param>
public sealed record ServiceInPlan(
    int Id, int Version, string Code, Discipline Discipline, ServiceKind Kind, Place Place, SessionFormat Format, LineTerms Terms,
    CoTreatment CoTreatment, ShortWindow? ShortWindow, Every Every, LocalDate FromDay, LocalDate ToDay, Wording? Wording, string? EndReason,
    string? Continues, IReadOnlyList<AmountView> Amounts, IReadOnlyList<NamedView> Assigned)
{
    public AmountView Last => Amounts[^1];

    /// <summary>Who may give it on a day; empty where nobody is assigned.</summary>
    public IEnumerable<NamedView> AssignedOn(LocalDate day) => Assigned.Where(a => a.FromDay <= day && day <= a.ToDay);
}

/// <summary>An amount from a day on, with the plan's own words.</summary>
public sealed record AmountView(
    LocalDate FromDay, int Quantity, int? QuantityTo, int? Sessions, string? PlanWords, string? PlanPage, string? Reason, Instant RecordedAt, bool AssistantsCount);

/// <summary>Somebody named between two days.</summary>
public sealed record NamedView(int Id, int Version, int PersonId, string Person, LocalDate FromDay, LocalDate ToDay);

/// <param name="Probes">Oldest first.</param>
/// <param name="Objectives">In their order.</param>
public sealed record GoalInPlan(
    int Id, int Version, string Code, string Area, string Statement, decimal? Target, LocalDate? TargetDay, GoalTerms Terms, LocalDate FromDay, LocalDate ToDay,
    IReadOnlyList<ProbesView> Probes, IReadOnlyList<NamedView> Owners, IReadOnlyList<ObjectiveView> Objectives)
{
    /// <summary>Whether a person owns it on a day.</summary>
    public bool OwnedBy(int person, LocalDate day) => Owners.Any(o => o.PersonId == person && o.FromDay <= day && day <= o.ToDay);
}

public sealed record ProbesView(LocalDate FromDay, int Probes, Every Every, bool ByEach);

public sealed record ObjectiveView(string Statement, LocalDate? TargetDay);
