using Microsoft.EntityFrameworkCore;
using TeamCircle.Core;
using TeamCircle.Core.Calendar;
using TeamCircle.Core.Learners;
using TeamCircle.Core.People;
using TeamCircle.Data.Learners;

namespace TeamCircle.Data.Calendar;

/// <summary>All that makes a visit but its day: read from a form, a visit or a series.</summary>
internal sealed record VisitSpec
{
    public required int Agency { get; init; }
    public required LearnerRow Learner { get; init; }
    public required VisitKind Kind { get; init; }

    /// <summary>Null for a visit of another kind.</summary>
    public ServiceRow? Service { get; init; }
    public required int Provider { get; init; }
    public int? Partner { get; init; }
    public LocalTime Start { get; init; }
    public int Minutes { get; init; }
    public Place Place { get; init; }
    public int? PlaceId { get; init; }
    public SessionFormat Format { get; init; }
    public required string Zone { get; init; }
    public LocalDate? PaysOn { get; init; }

    /// <summary>The award of compensatory services that it is for.</summary>
    public int? AwardId { get; init; }
    public IReadOnlyList<int> Routines { get; init; } = [];

    /// <summary>Whether it takes the learner's own time: direct services do, and what is no service does too (an evaluation, a fitting) but for a meeting.</summary>
    public bool IsLearnersTime => Service is { } service ? service.Kind == ServiceKind.Direct : Kind != VisitKind.PlanMeeting;

    /// <summary>The spec of a new visit, or every problem of it. <see cref="Problem.NotFound"/> where the caller may not plan it.</summary>
    public static async Task<Outcome<VisitSpec>> ReadAsync(PortalDb db, Caller caller, NewVisitInput input, CancellationToken stop)
    {
        var (agency, provider) = (caller.AgencyId, input.ProviderId ?? caller.PersonId);
        var learner = await db.Learners.SingleOrDefaultAsync(l => l.AgencyId == agency && l.Id == input.Learner, stop);
        if (learner is null || !CalendarRules.MayPlan(caller, learner.Id, provider))
            return Outcome<VisitSpec>.Refused(Problem.NotFound);
        var service = input.Kind != VisitKind.Service ? null
            : await db.Services.SingleOrDefaultAsync(s => s.AgencyId == agency && s.LearnerId == learner.Id && s.Id == input.ServiceId, stop);
        var zone = await db.Agencies.Where(a => a.Id == agency).Select(a => a.TimeZone).SingleAsync(stop);
        List<Problem> problems = [.. CalendarRules.CheckTime(input.Start, input.Minutes)];
        if (input.Kind == VisitKind.Service && service is null)
            problems.Add(new(nameof(input.ServiceId), "Choose the service."));
        problems.AddRange(await PeopleAsync(db, caller, input, service, provider, stop));
        var spec = new VisitSpec
        {
            Agency = agency,
            Learner = learner,
            Kind = input.Kind,
            Service = service,
            Provider = provider,
            Partner = input.PartnerId,
            Zone = zone,
            Format = input.Format ?? service?.Format ?? SessionFormat.Individual,
            Place = service?.Place ?? Place.Home,
            Routines = await RoutinesAsync(db, learner, input.Routines, stop),
        };
        return problems.Count > 0 ? Outcome<VisitSpec>.Refused(problems) : await spec.WithAsync(db, input, stop);
    }

    /// <summary>The spec of a visit as it stands.</summary>
    public static async Task<VisitSpec> OfAsync(PortalDb db, VisitRow visit, CancellationToken stop) => new()
    {
        Agency = visit.AgencyId,
        Learner = await db.Learners.SingleAsync(l => l.AgencyId == visit.AgencyId && l.Id == visit.LearnerId, stop),
        Kind = visit.Kind,
        Service = await db.Services.SingleOrDefaultAsync(s => s.AgencyId == visit.AgencyId && s.Id == visit.ServiceId, stop),
        Provider = visit.ProviderId,
        Partner = visit.PartnerId,
        Start = visit.StartTime,
        Minutes = visit.Minutes,
        Place = visit.Place,
        PlaceId = visit.PlaceId,
        Format = visit.Format,
        Zone = visit.Zone,
        PaysOn = visit.PaysOn,
        AwardId = visit.AwardId,
    };

    /// <summary>The spec of a series as it stands.</summary>
    public static async Task<VisitSpec> OfAsync(PortalDb db, SeriesRow series, CancellationToken stop) => new()
    {
        Agency = series.AgencyId,
        Learner = await db.Learners.SingleAsync(l => l.AgencyId == series.AgencyId && l.Id == series.LearnerId, stop),
        Kind = series.Kind,
        Service = await db.Services.SingleOrDefaultAsync(s => s.AgencyId == series.AgencyId && s.Id == series.ServiceId, stop),
        Provider = series.ProviderId,
        Partner = series.PartnerId,
        Start = series.StartTime,
        Minutes = series.Minutes,
        Place = series.Place,
        PlaceId = series.PlaceId,
        Format = series.Format,
        Zone = series.Zone,
        Routines = await db.SeriesRoutines.Where(r => r.AgencyId == series.AgencyId && r.SeriesId == series.Id).Select(r => r.RoutineId).ToListAsync(stop),
    };

    /// <summary>The same with another time or place, as far as they are given; or every problem.</summary>
    public async Task<Outcome<VisitSpec>> WithAsync(PortalDb db, VisitInput input, CancellationToken stop)
    {
        List<Problem> problems = [.. CalendarRules.CheckTime(input.Start, input.Minutes)];
        if (input.PlaceId is { } place && !await db.Places.AnyAsync(p => p.AgencyId == Agency && p.Id == place && p.Live, stop))
            problems.Add(new(nameof(input.PlaceId), "Choose a place of the list."));
        return problems.Count > 0
            ? Outcome<VisitSpec>.Refused(problems)
            : Outcome<VisitSpec>.Of(this with { Start = input.Start!.Value, Minutes = input.Minutes!.Value, Place = input.Place ?? Place, PlaceId = input.PlaceId });
    }

    /// <summary>A visit by this spec, without group or co-treatment.</summary>
    public VisitRow Row(LocalDate day)
    {
        var row = new VisitRow
        {
            AgencyId = Agency,
            Id = Guid.CreateVersion7(),
            LearnerId = Learner.Id,
            Kind = Kind,
            ServiceId = Service?.Id,
            Zone = Zone,
            PaysOn = PaysOn,
            AwardId = AwardId,
            ProviderId = Provider,
            PartnerId = Partner,
        };
        Fill(row, day);
        return row;
    }

    /// <summary>Gives a visit day, time, place and person.</summary>
    public void Fill(VisitRow row, LocalDate day)
    {
        (row.ProviderId, row.Place, row.PlaceId, row.Format, row.LearnersTime) = (Provider, Place, PlaceId, Format, IsLearnersTime);
        row.TakePlace(day, Start, Minutes);
    }

    /// <summary>Whether somebody works with the learner today.</summary>
    public static Task<bool> OnTeamAsync(PortalDb db, Caller caller, int learner, int person, CancellationToken stop) => db.Relations.AnyAsync(
        r => r.AgencyId == caller.AgencyId && r.LearnerId == learner && r.PersonId == person && r.Kind != Relation.Family && r.Kind != Relation.Reviewer
            && r.FromDay <= caller.Today && (r.ToDay == null || r.ToDay >= caller.Today), stop);

    private static async Task<List<Problem>> PeopleAsync(
        PortalDb db, Caller caller, NewVisitInput input, ServiceRow? service, int provider, CancellationToken stop)
    {
        var problems = new List<Problem>();
        if (!await OnTeamAsync(db, caller, input.Learner, provider, stop))
            problems.Add(new(nameof(input.ProviderId), "Choose somebody who is on the learner's team."));
        if (input.PartnerId is not { } partner)
            return problems;
        if (partner == provider || !await OnTeamAsync(db, caller, input.Learner, partner, stop))
            problems.Add(new(nameof(input.PartnerId), "Choose somebody else who is on the learner's team."));
        else if (service is not { CoTreatment: not CoTreatment.None })
            problems.Add(new(nameof(input.PartnerId), "The plan does not provide for co-treatment in this service."));
        return problems;
    }

    private static async Task<IReadOnlyList<int>> RoutinesAsync(PortalDb db, LearnerRow learner, int[] routines, CancellationToken stop) =>
        routines.Length == 0 ? [] : await db.Routines.Where(r => r.AgencyId == learner.AgencyId && r.LearnerId == learner.Id && r.Live && routines.Contains(r.Id))
            .Select(r => r.Id).ToListAsync(stop);
}
