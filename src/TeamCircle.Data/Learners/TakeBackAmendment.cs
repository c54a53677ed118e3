using Microsoft.EntityFrameworkCore;
using TeamCircle.Core;
using TeamCircle.Core.People;
using TeamCircle.Data.Closing;
using TeamCircle.Data.Devices;

namespace TeamCircle.Data.Learners;

/// <summary>Takes back the last change of a service's amount; the one before holds on.</summary>
public sealed class TakeBackAmendment(Portal portal)
{
    public sealed class Input
    {
        public int Learner { get; set; }
        public int Service { get; set; }
        public int Version { get; set; }
        public string? Reason { get; set; }
    }

    public sealed record Saved(int Service);

    public Task<Outcome<Saved>> RunAsync(Caller caller, Guid operation, Input input, CancellationToken stop = default) =>
        portal.WritePlanAsync(caller, input.Learner, Operation.Of(operation, nameof(TakeBackAmendment), input),
            db => WorkAsync(db, caller.AgencyId, input, stop), stop);

    private static async Task<Outcome<Saved>> WorkAsync(PortalDb db, int agency, Input input, CancellationToken stop)
    {
        if (await db.Services.SingleOrDefaultAsync(s => s.AgencyId == agency && s.LearnerId == input.Learner && s.Id == input.Service, stop) is not { } line)
            return Outcome<Saved>.Refused(Problem.NotFound);
        var versions = await db.ServiceVersions.Where(v => v.AgencyId == agency && v.ServiceId == line.Id).OrderBy(v => v.FromDay).ToListAsync(stop);
        if (versions.Count < 2)
            return Outcome<Saved>.Refused("", "This is the amount that the service began with: there is no change to take back.");
        if (string.IsNullOrWhiteSpace(input.Reason))
            return Outcome<Saved>.Refused(Refusals.NoReason(nameof(input.Reason)));
        if (await ClosedCounts.FindAsync(db, agency, input.Learner, [new(versions[^1].FromDay, line.ToDay)], stop) is { } closed)
            return Outcome<Saved>.Refused(closed);
        db.Touch(line, input.Version);
        (versions[^1].Live, versions[^1].TakenBackReason) = (false, input.Reason.Trim());
        return Outcome<Saved>.Of(new(line.Id));
    }
}
