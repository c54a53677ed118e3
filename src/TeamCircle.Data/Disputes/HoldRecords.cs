using TeamCircle.Core;
using TeamCircle.Core.Disputes;
using TeamCircle.Core.People;
using TeamCircle.Data.Devices;

namespace TeamCircle.Data.Disputes;

/// <summary>Sets a hold on a learner's records between two days. What is being saved at that moment is saved first.</summary>
public sealed class HoldRecords(Portal portal)
{
    public sealed record Input
    {
        public int Learner { get; init; }
        public LocalDate? FromDay { get; init; }
        public LocalDate? ToDay { get; init; }
        public string? Reason { get; init; }
    }

    public sealed record Saved(int Hold);

    public Task<Outcome<Saved>> RunAsync(Caller caller, Guid operation, Input input, CancellationToken stop = default) => portal.WriteAsync(
        RecordHoldDoor.ScopeOf(caller, input.Learner), Operation.Of(operation, nameof(HoldRecords), input), db => SetAsync(db, caller, input, stop), stop);

    private static async Task<Outcome<Saved>> SetAsync(PortalDb db, Caller caller, Input input, CancellationToken stop)
    {
        if (!RecordHoldRules.MaySet(caller, input.Learner) || !await RecordHoldDoor.IsThereAsync(db, caller.AgencyId, input.Learner, stop))
            return Outcome<Saved>.Refused(Problem.NotFound);
        Problem[] problems = [.. RecordHoldRules.Check(input.FromDay, input.ToDay, input.Reason, caller.Today)];
        if (problems.Length > 0)
            return Outcome<Saved>.Refused(problems);
        var hold = new RecordHoldRow
        {
            AgencyId = caller.AgencyId,
            LearnerId = input.Learner,
            FromDay = input.FromDay!.Value,
            ToDay = input.ToDay!.Value,
            Reason = input.Reason!.Trim(),
            SetBy = caller.PersonId,
        };
        db.Add(hold);
        await db.SaveChangesAsync(stop);
        return Outcome<Saved>.Of(new(hold.Id));
    }
}
