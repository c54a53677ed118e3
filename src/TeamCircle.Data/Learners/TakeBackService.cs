using Microsoft.EntityFrameworkCore;
using TeamCircle.Core;
using TeamCircle.Core.People;
using TeamCircle.Data.Closing;
using TeamCircle.Data.Devices;

namespace TeamCircle.Data.Learners;

/// <summary>Takes back a service that was entered by mistake and has no visit yet; its rows stay with the reason.</summary>
public sealed class TakeBackService(Portal portal)
{
    public sealed class Input
    {
        public int Learner { get; set; }
        public int Service { get; set; }
        public int Version { get; set; }
        public string? Reason { get; set; }
    }

    public sealed record Saved(int Learner);

    public Task<Outcome<Saved>> RunAsync(Caller caller, Guid operation, Input input, CancellationToken stop = default) =>
        portal.WritePlanAsync(caller, input.Learner, Operation.Of(operation, nameof(TakeBackService), input),
            db => WorkAsync(db, caller.AgencyId, input, stop), stop);

    private static async Task<Outcome<Saved>> WorkAsync(PortalDb db, int agency, Input input, CancellationToken stop)
    {
        if (await db.Services.SingleOrDefaultAsync(s => s.AgencyId == agency && s.LearnerId == input.Learner && s.Id == input.Service, stop) is not { } line)
            return Outcome<Saved>.Refused(Problem.NotFound);
        if (string.IsNullOrWhiteSpace(input.Reason))
            return Outcome<Saved>.Refused(Refusals.NoReason(nameof(input.Reason)));
        if (await db.Visits.AnyAsync(v => v.AgencyId == agency && v.ServiceId == line.Id && v.Live, stop)
            || await db.Decisions.AnyAsync(d => d.AgencyId == agency && d.ServiceId == line.Id && d.Live, stop)
            || await db.Services.AnyAsync(s => s.AgencyId == agency && s.ContinuesId == line.Id, stop))
            return Outcome<Saved>.Refused("", "Visits, decisions or another service stand on this service, so it can't be taken back. Give it a last day instead.");
        if (await ClosedCounts.FindAsync(db, agency, input.Learner, [new(line.FromDay, line.ToDay)], stop) is { } closed)
            return Outcome<Saved>.Refused(closed);
        db.Touch(line, input.Version);
        List<ITakenBackRow> rows =
        [
            line,
            .. await db.ServiceVersions.Where(v => v.AgencyId == agency && v.ServiceId == line.Id).ToListAsync(stop),
            .. await db.Assignments.Where(a => a.AgencyId == agency && a.ServiceId == line.Id).ToListAsync(stop),
        ];
        rows.ForEach(row => (row.Live, row.TakenBackReason) = (false, input.Reason.Trim()));
        return Outcome<Saved>.Of(new(input.Learner));
    }
}
