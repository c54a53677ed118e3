using Microsoft.EntityFrameworkCore;
using TeamCircle.Core;
using TeamCircle.Core.Learners;
using TeamCircle.Core.People;
using TeamCircle.Core.Time;
using TeamCircle.Data.Calendar;
using TeamCircle.Data.Closing;
using TeamCircle.Data.Devices;

namespace TeamCircle.Data.Learners;

/// <summary>
/// Amends a service from a day on: a new version of the same line, or, where it is to be counted in another kind of
/// window, the end of the line and another that goes on in its place (docs/rules.md, part 2).
/// </summary>
public sealed class AmendService(Portal portal)
{
    public sealed class Input
    {
        public int Learner { get; set; }
        public int Service { get; set; }
        public int Version { get; set; }
        public LocalDate? FromDay { get; set; }
        public AmountInput Amount { get; set; } = new();
    }

    /// <param name="Service">The line that holds from that day on: the same, or the one that goes on in its place.</param>
    /// <param name="VisitsMoved">Planned visits that went over to it.</param>
    public sealed record Saved(int Service, int VisitsMoved);

    public Task<Outcome<Saved>> RunAsync(Caller caller, Guid operation, Input input, CancellationToken stop = default) =>
        portal.WritePlanAsync(caller, input.Learner, Operation.Of(operation, nameof(AmendService), input),
            db => WorkAsync(db, caller.AgencyId, input, stop), stop);

    private static async Task<Outcome<Saved>> WorkAsync(PortalDb db, int agency, Input input, CancellationToken stop)
    {
        if (await db.Services.SingleOrDefaultAsync(s => s.AgencyId == agency && s.LearnerId == input.Learner && s.Id == input.Service, stop) is not { } line)
            return Outcome<Saved>.Refused(Problem.NotFound);
        var begins = await db.ServiceVersions.Where(v => v.AgencyId == agency && v.ServiceId == line.Id).Select(v => v.FromDay).ToListAsync(stop);
        var continues = input.Amount.Entry.Every != new Every(line.EveryUnit, line.EveryCount);
        Problem[] problems = [.. ServiceRules.CheckAmendment(
            input.Amount.Entry, line.Wording, input.FromDay, new(line.FromDay, line.ToDay), begins, continues)];
        if (problems.Length > 0)
            return Outcome<Saved>.Refused(problems);
        if (await ClosedCounts.FindAsync(db, agency, input.Learner, [new(input.FromDay!.Value, line.ToDay)], stop) is { } closed)
            return Outcome<Saved>.Refused(closed);
        db.Touch(line, input.Version);
        return continues ? await ContinueAsync(db, line, input, stop) : await AddVersionAsync(db, line, input, stop);
    }

    private static async Task<Outcome<Saved>> AddVersionAsync(PortalDb db, ServiceRow line, Input input, CancellationToken stop)
    {
        db.Add(input.Amount.Version(line, await NextCodeAsync(db, line, stop), input.FromDay!.Value));
        return Outcome<Saved>.Of(new(line.Id, 0));
    }

    private static async Task<Outcome<Saved>> ContinueAsync(PortalDb db, ServiceRow line, Input input, CancellationToken stop)
    {
        var from = input.FromDay!.Value;
        if (await db.Sessions.AnyAsync(s => s.AgencyId == line.AgencyId && s.ServiceId == line.Id && s.Live && s.OnDay >= from && (s.PaysOn == null || s.PaysOn >= from), stop))
            return Outcome<Saved>.Refused("FromDay", "A visit on or after that day is already logged for this service. How often it is counted can change only from a later day.");
        var next = Copy(line, input, await NextCodeAsync(db, line, stop));
        (line.ToDay, line.EndReason) = (from.PlusDays(-1), input.Amount.Reason!.Trim());
        db.Add(next);
        await db.SaveChangesAsync(stop);
        db.Add(input.Amount.Version(next, next.Code, from));
        await CarryAssignmentsAsync(db, line, next, stop);
        var visits = await db.Visits
            .Where(v => v.AgencyId == line.AgencyId && v.ServiceId == line.Id && v.Live && v.State == VisitState.Planned && v.OnDay >= from && (v.PaysOn == null || v.PaysOn >= from))
            .ToListAsync(stop);
        visits.ForEach(v => v.ServiceId = next.Id);
        foreach (var series in await db.Series.Where(s => s.AgencyId == line.AgencyId && s.ServiceId == line.Id && s.Live && (s.EndsOn == null || s.EndsOn >= from)).ToListAsync(stop))
            series.ServiceId = next.Id;
        return Outcome<Saved>.Of(new(next.Id, visits.Count));
    }

    private static async Task CarryAssignmentsAsync(PortalDb db, ServiceRow line, ServiceRow next, CancellationToken stop)
    {
        var assigned = await db.Assignments.Where(a => a.AgencyId == line.AgencyId && a.ServiceId == line.Id && a.ToDay >= next.FromDay).ToListAsync(stop);
        db.AddRange(assigned.Select(a => new AssignmentRow
        {
            AgencyId = line.AgencyId,
            LearnerId = line.LearnerId,
            ServiceId = next.Id,
            PersonId = a.PersonId,
            FromDay = LocalDate.Max(a.FromDay, next.FromDay),
            ToDay = a.ToDay,
        }));
    }

    private static ServiceRow Copy(ServiceRow line, Input input, string code) => new()
    {
        AgencyId = line.AgencyId,
        LearnerId = line.LearnerId,
        PlanId = line.PlanId,
        Code = code,
        Position = line.Position,
        Discipline = line.Discipline,
        Kind = line.Kind,
        Place = line.Place,
        Format = line.Format,
        Terms = line.Terms,
        CoTreatment = line.CoTreatment,
        ShortWindow = line.ShortWindow,
        EveryUnit = input.Amount.EveryUnit,
        EveryCount = input.Amount.EveryCount!.Value,
        FromDay = input.FromDay!.Value,
        ToDay = line.ToDay,
        Wording = line.Wording,
        ContinuesId = line.Id,
    };

    private static async Task<string> NextCodeAsync(PortalDb db, ServiceRow line, CancellationToken stop)
    {
        var codes = await db.ServiceVersions.IgnoreQueryFilters()
            .Where(v => v.AgencyId == line.AgencyId && v.LearnerId == line.LearnerId).Select(v => v.Code).ToListAsync(stop);
        return Enumerable.Range(2, codes.Count + 1).Select(n => $"{line.Code}.{n}").First(code => !codes.Contains(code));
    }
}
