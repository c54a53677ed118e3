using TeamCircle.Core;
using TeamCircle.Core.People;
using TeamCircle.Core.Rights;
using TeamCircle.Data.Devices;

namespace TeamCircle.Data.Rights;

/// <summary>Notes that a parent asks to see or to amend a record. From that day the outer date runs.</summary>
public sealed class ReceiveRequest(Portal portal, TimeProvider clock)
{
    public sealed record Input
    {
        public int Learner { get; init; }
        public RequestKind? Kind { get; init; }
        public LocalDate? ReceivedOn { get; init; }
        public string? AskedBy { get; init; }
        public string? Words { get; init; }
    }

    public sealed record Saved(int Request);

    public Task<Outcome<Saved>> RunAsync(Caller caller, Guid operation, Input input, CancellationToken stop = default) => portal.WriteAsync(
        Scope.OfLearner(caller, input.Learner), Operation.Of(operation, nameof(ReceiveRequest), input), db => WorkAsync(db, caller, input, stop), stop);

    private async Task<Outcome<Saved>> WorkAsync(PortalDb db, Caller caller, Input input, CancellationToken stop)
    {
        if (!RequestRules.MayKeep(caller, input.Learner))
            return Outcome<Saved>.Refused(Problem.NotFound);
        Problem[] problems = [.. RequestRules.CheckRequest(input.Kind, input.AskedBy, input.Words, input.ReceivedOn, caller.Today)];
        if (problems.Length > 0)
            return Outcome<Saved>.Refused(problems);
        var row = new RecordRequestRow
        {
            AgencyId = caller.AgencyId,
            LearnerId = input.Learner,
            Kind = input.Kind!.Value,
            ReceivedOn = input.ReceivedOn!.Value,
            AskedBy = input.AskedBy!.Trim(),
            Words = input.Words!.Trim(),
            EnteredBy = caller.PersonId,
            EnteredAt = Instant.FromDateTimeOffset(clock.GetUtcNow()),
        };
        db.Add(row);
        await db.SaveChangesAsync(stop);
        return Outcome<Saved>.Of(new(row.Id));
    }
}
