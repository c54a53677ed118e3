using TeamCircle.Core;
using TeamCircle.Core.People;
using TeamCircle.Core.Things;
using TeamCircle.Data.Devices;

namespace TeamCircle.Data.Things;

/// <summary>Ends a promise: the plan promises the thing no more, or it was entered by mistake. What was noted stays, and is shown with its charts.
/// An end can be moved, or taken back; the record of changes keeps each.</summary>
public sealed class EndThing(Portal portal)
{
    public sealed record Input
    {
        public int Learner { get; init; }
        public int Thing { get; init; }
        public int Version { get; init; }
        public LocalDate? LastDay { get; init; }
        public string? Why { get; init; }

        /// <summary>The thing is promised still: day and reason are not asked for.</summary>
        public bool TakeBack { get; init; }
    }

    public sealed record Saved(int Thing);

    public Task<Outcome<Saved>> RunAsync(Caller caller, Guid operation, Input input, CancellationToken stop = default) => portal.WriteAsync(
        Scope.OfLearner(caller, input.Learner), Operation.Of(operation, nameof(EndThing), input), db => WorkAsync(db, caller, input, stop), stop);

    private static async Task<Outcome<Saved>> WorkAsync(PortalDb db, Caller caller, Input input, CancellationToken stop)
    {
        if (!ThingRules.MayPromise(caller, input.Learner) || await ReadThings.FindAsync(db, caller, input.Learner, input.Thing, stop) is not { } thing)
            return Outcome<Saved>.Refused(Problem.NotFound);
        if (input.TakeBack)
        {
            db.BeganOn(thing, input.Version);
            (thing.EndedOn, thing.EndedBy, thing.EndedWhy) = (null, null, null);
            return Outcome<Saved>.Of(new(thing.Id));
        }
        List<Problem> problems = [];
        if (input.LastDay is not { } day || day < thing.PromisedOn || day > caller.Today)
            problems.Add(new(nameof(input.LastDay), "Give the last day, between the promise and today."));
        if (string.IsNullOrWhiteSpace(input.Why) || input.Why.Trim().Length > ThingRules.LongestWords)
            problems.Add(new(nameof(input.Why), "Say why: the amendment, the meeting, or that it was entered by mistake."));
        if (problems.Count > 0)
            return Outcome<Saved>.Refused(problems);
        db.BeganOn(thing, input.Version);
        (thing.EndedOn, thing.EndedBy, thing.EndedWhy) = (input.LastDay, caller.PersonId, input.Why!.Trim());
        return Outcome<Saved>.Of(new(thing.Id));
    }
}
