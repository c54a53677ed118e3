using Microsoft.EntityFrameworkCore;
using TeamCircle.Core;
using TeamCircle.Core.Moves;
using TeamCircle.Core.People;
using TeamCircle.Data.Devices;
using TeamCircle.Data.Learners;

namespace TeamCircle.Data.Moves;

/// <summary>
/// Says what became of the plan with which a learner came: adopted, so that the comparable services go on as the plan's own; or replaced by a plan of ours,
/// so that they end the day before. It is said once.
/// </summary>
public sealed class DecideMoveIn(Portal portal)
{
    public sealed record Input
    {
        public int Learner { get; init; }
        public MoveInStatus? Status { get; init; }
        public LocalDate? DecidedOn { get; init; }
        public string? DecidedWords { get; init; }
        public int Version { get; init; }
    }

    /// <param name="Ended">Comparable services that end with the day before.</param>
    public sealed record Saved(int Learner, int Ended);

    public Task<Outcome<Saved>> RunAsync(Caller caller, Guid operation, Input input, CancellationToken stop = default) =>
        portal.WritePlanAsync(caller, input.Learner, Operation.Of(operation, nameof(DecideMoveIn), input), db => WorkAsync(db, caller, input, stop), stop);

    private static async Task<Outcome<Saved>> WorkAsync(PortalDb db, Caller caller, Input input, CancellationToken stop)
    {
        if (await db.MovesIn.SingleOrDefaultAsync(m => m.AgencyId == caller.AgencyId && m.LearnerId == input.Learner, stop) is not { Status: MoveInStatus.Comparable } row)
            return Outcome<Saved>.Refused(Problem.NotFound);
        Problem[] problems = [.. MoveRules.CheckOutcome(input.Status, row.OtherState, input.DecidedOn, row.FirstDay, input.DecidedWords)];
        if (problems.Length > 0)
            return Outcome<Saved>.Refused(problems);
        db.BeganOn(row, input.Version);
        (row.Status, row.DecidedOn, row.DecidedBy, row.DecidedWords) = (input.Status!.Value, input.DecidedOn, caller.PersonId, input.DecidedWords!.Trim());
        if (row.Status == MoveInStatus.Adopted)
            return Outcome<Saved>.Of(new(input.Learner, 0));
        var services = await (
            from m in db.MoveInServices
            join s in db.Services on new { m.AgencyId, m.LearnerId, Id = m.ServiceId } equals new { s.AgencyId, s.LearnerId, Id = (int?)s.Id }
            where m.AgencyId == row.AgencyId && m.MoveInId == row.Id && s.ToDay >= row.DecidedOn
            select new { s.Id, s.Version }).Distinct().ToListAsync(stop);
        foreach (var service in services)
        {
            var ended = await EndService.WorkAsync(db, row.AgencyId, new()
            {
                Learner = input.Learner,
                Service = service.Id,
                Version = service.Version,
                LastDay = row.DecidedOn!.Value.PlusDays(-1),
                Reason = "comparable service, until our own plan is in force",
            }, stop);
            if (ended.Value is null)
                return Outcome<Saved>.Refused([.. ended.Problems.Select(p => p.Field == "LastDay" ? p with { Field = "DecidedOn" } : p with { Field = "" })]);
        }
        return Outcome<Saved>.Of(new(input.Learner, services.Count));
    }
}
