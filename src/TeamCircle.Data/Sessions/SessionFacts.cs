using Microsoft.EntityFrameworkCore;
using TeamCircle.Core.Learners;
using TeamCircle.Core.People;
using TeamCircle.Core.Sessions;
using TeamCircle.Core.Time;
using TeamCircle.Data.Calendar;
using TeamCircle.Data.Closing;
using TeamCircle.Data.Commitments;
using TeamCircle.Data.Learners;
using TeamCircle.Data.People;

namespace TeamCircle.Data.Sessions;

/// <summary>What the rules need to know about some learners' services when a visit is recorded.</summary>
internal sealed class SessionFacts
{
    private readonly Dictionary<int, CommitmentLine> _lines;
    private readonly Dictionary<int, ServiceRow> _services;
    private readonly ILookup<int, RelationRow> _teams;
    private ILookup<int, Discipline> _qualified = Array.Empty<Discipline>().ToLookup(_ => 0);
    private ILookup<int, ServiceVersionRow> _versions = Array.Empty<ServiceVersionRow>().ToLookup(_ => 0);
    private ILookup<int, LocalDate> _brought = Array.Empty<LocalDate>().ToLookup(_ => 0);
    private List<AwardRow> _awards = [];

    private SessionFacts(
        string zone, LocalDateTime now, IEnumerable<CommitmentLine> lines, IEnumerable<ServiceRow> services, IEnumerable<RelationRow> team)
    {
        (Zone, Now) = (zone, now);
        _lines = lines.ToDictionary(l => l.Id);
        _services = services.ToDictionary(s => s.Id);
        _teams = team.ToLookup(r => r.LearnerId);
    }

    /// <summary>The agency's time zone.</summary>
    public string Zone { get; }

    /// <summary>Date and time there.</summary>
    public LocalDateTime Now { get; }

    public static async Task<SessionFacts> ReadAsync(
        PortalDb db, int agency, IReadOnlyList<int> learners, TimeProvider clock, CancellationToken stop)
    {
        var rules = await AgencyRules.ReadAsync(db, agency, stop);
        var services = await db.Services.AsNoTracking().OfLearners(agency, learners).Where(s => s.Live).ToListAsync(stop);
        var team = await db.Relations.AsNoTracking().OfLearners(agency, learners)
            .Where(r => r.Live && r.Kind != Relation.Family && r.Kind != Relation.Reviewer).ToListAsync(stop);
        var lines = await ReadLines.ServicesAsync(db, new(agency, learners), rules, stop);
        var brought = await db.Debts.OfLearners(agency, learners).Where(d => d.Live && d.PeriodId == null && d.ServiceId != null)
            .Select(d => new { Service = d.ServiceId!.Value, d.OnDay }).ToListAsync(stop);
        return new(rules.Agency.TimeZone, AgencyClock.Now(clock, rules.Agency.TimeZone), lines, services, team)
        {
            _brought = brought.ToLookup(b => b.Service, b => b.OnDay),
            _qualified = await QualifiedAsync(db, agency, team, stop),
            _versions = await VersionsAsync(db, agency, team, stop),
            _awards = await db.Awards.AsNoTracking().OfLearners(agency, learners).Where(a => a.Live).ToListAsync(stop),
        };
    }

    /// <summary>Null where these learners have no such service.</summary>
    public ServiceRow? Service(int id) => _services.GetValueOrDefault(id);

    /// <summary>Whether a person works with the learner on that day, or does today.</summary>
    public bool OnTeam(int learner, int person, LocalDate day) => _teams[learner].Any(r =>
        r.PersonId == person && (Holds(r, day) || Holds(r, Now.Date)));

    public SessionSituation Situation(ServiceRow service, PlannedTimes? planned, int provider, LocalDate day)
    {
        var line = _lines[service.Id];
        var assigned = line.Named.Any(n => n.PersonId == provider && n.Days.Holds(Day.Of(day)));
        return new(Now, planned, new(line.Promise.Dates, line.Windows, service.Place, service.Format, service.CoTreatment, assigned)
        {
            Giver = GiverOf(service, provider, day),
            BroughtByFile = [.. _brought[service.Id]],
            Awards = [.. _awards.Where(a => a.IsGivenBy(service)).Select(a => new AwardTerms(a.Id, a.FromDay, a.UntilDay, a.MayGive.Length == 0 || a.MayGive.Contains(provider)))],
        });
    }

    /// <summary>As what a person gives a service on a day.</summary>
    public Giver GiverOf(ServiceRow service, int provider, LocalDate day)
    {
        var held = _teams[service.LearnerId].Where(r => r.PersonId == provider && Holds(r, day)).ToList();
        var what = Giver.AsWhat([.. held.Select(r => r.Kind)]);
        return new()
        {
            As = what,
            IsQualified = _qualified[provider].Contains(service.Discipline),
            Supervisor = what is Relation.Assistant ? held.Find(r => r.Kind == Relation.Assistant)!.SupervisorId : null,
            AssistantsCount = _versions[service.Id].LastOrDefault(v => v.FromDay <= day)?.AssistantsCount ?? false,
        };
    }

    /// <summary>Asked of substitutes only; nothing where none ever stood in.</summary>
    private static async Task<ILookup<int, Discipline>> QualifiedAsync(PortalDb db, int agency, List<RelationRow> team, CancellationToken stop)
    {
        int[] substitutes = [.. team.Where(r => r.Kind == Relation.Substitute).Select(r => r.PersonId).Distinct()];
        return substitutes.Length == 0 ? Array.Empty<Discipline>().ToLookup(_ => 0)
            : (await db.PersonDisciplines.Where(d => d.AgencyId == agency && substitutes.Contains(d.PersonId)).ToListAsync(stop)).ToLookup(d => d.PersonId, d => d.Discipline);
    }

    /// <summary>Asked where an assistant works; nothing where none ever did. Oldest first.</summary>
    private static async Task<ILookup<int, ServiceVersionRow>> VersionsAsync(PortalDb db, int agency, List<RelationRow> team, CancellationToken stop)
    {
        int[] learners = [.. team.Where(r => r.Kind == Relation.Assistant).Select(r => r.LearnerId).Distinct()];
        return learners.Length == 0 ? Array.Empty<ServiceVersionRow>().ToLookup(_ => 0)
            : (await db.ServiceVersions.AsNoTracking().Where(v => v.AgencyId == agency && learners.Contains(v.LearnerId)).OrderBy(v => v.FromDay).ToListAsync(stop))
                .ToLookup(v => v.ServiceId);
    }

    private static bool Holds(RelationRow relation, LocalDate day) =>
        relation.FromDay <= day && (relation.ToDay is null || relation.ToDay >= day);
}
