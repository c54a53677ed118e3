using System.ComponentModel.DataAnnotations;
using Microsoft.EntityFrameworkCore;
using TeamCircle.Core;
using TeamCircle.Core.People;
using TeamCircle.Data.Devices;

namespace TeamCircle.Data.Closing;

/// <summary>Takes back an award that was entered wrongly, with a reason. One for which visits were given or are planned stays.</summary>
public sealed class TakeBackAward(Portal portal)
{
    public sealed record Input
    {
        public int Learner { get; init; }
        public int Award { get; init; }

        [StringLength(1000)]
        public string? Why { get; init; }
    }

    public sealed record TakenBack(int Award);

    public Task<Outcome<TakenBack>> RunAsync(Caller caller, Guid operation, Input input, CancellationToken stop = default) =>
        portal.WriteAsync(Scope.Of(caller), Operation.Of(operation, nameof(TakeBackAward), input), db => WorkAsync(db, caller, input, stop), stop);

    private static async Task<Outcome<TakenBack>> WorkAsync(PortalDb db, Caller caller, Input input, CancellationToken stop)
    {
        var found = await db.Locked<AwardRow>(
            $"agency_id = {caller.AgencyId} and learner_id = {input.Learner} and id = {input.Award}").ToListAsync(stop);
        if (found is not [var award] || !caller.IsStaff || !caller.Manages(award.LearnerId))
            return Outcome<TakenBack>.Refused(Problem.NotFound);
        if (!award.Live)
            return Outcome<TakenBack>.Refused(Refusals.ChangedMeanwhile);
        if (string.IsNullOrWhiteSpace(input.Why))
            return Outcome<TakenBack>.Refused(Refusals.NoReason(nameof(input.Why)));
        if (await db.Visits.AnyAsync(v => v.AgencyId == award.AgencyId && v.AwardId == award.Id && v.Live, stop))
            return Outcome<TakenBack>.Refused("", "Visits name this award. Correct or cancel them first.");
        (award.Live, award.TakenBackReason) = (false, input.Why.Trim());
        return Outcome<TakenBack>.Of(new(award.Id));
    }
}
