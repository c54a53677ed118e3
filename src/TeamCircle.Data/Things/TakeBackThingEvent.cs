using TeamCircle.Core;
using TeamCircle.Core.People;
using TeamCircle.Core.Things;
using TeamCircle.Data.Devices;

namespace TeamCircle.Data.Things;

/// <summary>Takes back the last entry about a thing; it stays with the reason. An earlier one is reached by taking back those after it.</summary>
public sealed class TakeBackThingEvent(Portal portal)
{
    public sealed record Input
    {
        public int Learner { get; init; }
        public int Thing { get; init; }
        public int Version { get; init; }
        public int Entry { get; init; }
        public string? Why { get; init; }
    }

    public sealed record Saved(int Thing);

    public Task<Outcome<Saved>> RunAsync(Caller caller, Guid operation, Input input, CancellationToken stop = default) => portal.WriteAsync(
        Scope.OfLearner(caller, input.Learner), Operation.Of(operation, nameof(TakeBackThingEvent), input), db => WorkAsync(db, caller, input, stop), stop);

    private static async Task<Outcome<Saved>> WorkAsync(PortalDb db, Caller caller, Input input, CancellationToken stop)
    {
        if (!ThingRules.MayNote(caller, input.Learner) || await ReadThings.FindAsync(db, caller, input.Learner, input.Thing, stop) is not { } thing)
            return Outcome<Saved>.Refused(Problem.NotFound);
        var events = await ReadThings.EventsAsync(db, thing, stop);
        if (events.Count == 0 || events[^1].Id != input.Entry)
            return Outcome<Saved>.Refused("", "Something else was noted since. Look at the page again.");
        if (string.IsNullOrWhiteSpace(input.Why) || input.Why.Trim().Length > ThingRules.LongestWords)
            return Outcome<Saved>.Refused(Refusals.NoReason(nameof(input.Why)));
        db.Touch(thing, input.Version);
        (events[^1].Live, events[^1].TakenBackReason) = (false, input.Why.Trim());
        return Outcome<Saved>.Of(new(thing.Id));
    }
}
