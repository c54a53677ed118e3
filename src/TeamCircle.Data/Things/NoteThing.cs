using TeamCircle.Core;
using TeamCircle.Core.People;
using TeamCircle.Core.Things;
using TeamCircle.Data.Devices;

namespace TeamCircle.Data.Things;

/// <summary>Notes what happened to a thing: it is there, it broke, it works again, a loaner came or went back, it moved, it was given back.</summary>
public sealed class NoteThing(Portal portal)
{
    public sealed record Input
    {
        public int Learner { get; init; }
        public int Thing { get; init; }

        /// <summary>Of the thing's row: who notes something at the same moment is told.</summary>
        public int Version { get; init; }
        public ThingAct? Act { get; init; }
        public LocalDate? OnDay { get; init; }

        /// <summary>What happened, or what the loaner is.</summary>
        public string? Words { get; init; }

        /// <summary>What to do while it is out of order.</summary>
        public string? Meanwhile { get; init; }
        public ThingPlace? Where { get; init; }
    }

    public sealed record Saved(int Thing, ThingAct Act);

    public Task<Outcome<Saved>> RunAsync(Caller caller, Guid operation, Input input, CancellationToken stop = default) => portal.WriteAsync(
        Scope.OfLearner(caller, input.Learner), Operation.Of(operation, nameof(NoteThing), input), db => WorkAsync(db, caller, input, stop), stop);

    private static async Task<Outcome<Saved>> WorkAsync(PortalDb db, Caller caller, Input input, CancellationToken stop)
    {
        if (!ThingRules.MayNote(caller, input.Learner) || await ReadThings.FindAsync(db, caller, input.Learner, input.Thing, stop) is not { } thing)
            return Outcome<Saved>.Refused(Problem.NotFound);
        if (thing.EndedOn is not null)
            return Outcome<Saved>.Refused("", "It is not promised any more.");
        var story = ThingStory.Of((await ReadThings.EventsAsync(db, thing, stop)).Select(e => e.Entry));
        Problem[] problems = [.. ThingRules.CheckNext(story, thing.Kind, input.Act, input.OnDay, input.Words, input.Meanwhile, input.Where, caller.Today)];
        if (problems.Length > 0)
            return Outcome<Saved>.Refused(problems);
        db.Touch(thing, input.Version);
        var act = input.Act!.Value;
        db.Add(new ThingEventRow
        {
            AgencyId = thing.AgencyId,
            LearnerId = thing.LearnerId,
            ThingId = thing.Id,
            Act = act,
            OnDay = input.OnDay!.Value,
            Words = Said(input.Words),
            Meanwhile = act == ThingAct.Broken ? Said(input.Meanwhile) : null,
            Place = act is ThingAct.InPlace or ThingAct.Moved or ThingAct.Broken or ThingAct.Works ? input.Where : null,
            EnteredBy = caller.PersonId,
        });
        return Outcome<Saved>.Of(new(thing.Id, act));
    }

    private static string? Said(string? words) => string.IsNullOrWhiteSpace(words) ? null : words.Trim();
}
