using Microsoft.EntityFrameworkCore;
using TeamCircle.Core;
using TeamCircle.Core.Papers;
using TeamCircle.Core.People;
using TeamCircle.Data.Devices;

namespace TeamCircle.Data.Papers;

/// <summary>Says by when the team decides about an extended school year; also anew, in place of a decision or a day that does not stand, with the reason.</summary>
public sealed class AskExtendedYear(Portal portal)
{
    public sealed record Input
    {
        public int Learner { get; init; }
        public LocalDate? DecideBy { get; init; }

        /// <summary>The decision in whose place it comes; null for another one.</summary>
        public int? Instead { get; init; }
        public int Version { get; init; }

        /// <summary>Why the other one does not stand.</summary>
        public string? Reason { get; init; }
    }

    public sealed record Saved(int Decision);

    public Task<Outcome<Saved>> RunAsync(Caller caller, Guid operation, Input input, CancellationToken stop = default) => portal.WriteAsync(
        Scope.OfLearner(caller, input.Learner), Operation.Of(operation, nameof(AskExtendedYear), input), db => WorkAsync(db, caller, input, stop), stop);

    private static async Task<Outcome<Saved>> WorkAsync(PortalDb db, Caller caller, Input input, CancellationToken stop)
    {
        if (!ExtendedYears.MayKeep(caller, input.Learner))
            return Outcome<Saved>.Refused(Problem.NotFound);
        List<Problem> problems = [.. ExtendedYears.CheckAsk(input.DecideBy, caller.Today)];
        var own = await db.ExtendedYears.Where(e => e.AgencyId == caller.AgencyId && e.LearnerId == input.Learner).ToListAsync(stop);
        var instead = own.Find(e => e.Id == input.Instead);
        if (input.Instead is not null && instead is null)
            return Outcome<Saved>.Refused(Problem.NotFound);
        if (instead is not null)
            problems.AddRange(BoundDates.CheckReason(input.Reason));
        else if (own.Exists(e => e.Answer is null))
            problems.Add(new("", "A decision is asked for already."));
        if (problems.Count > 0)
            return Outcome<Saved>.Refused(problems);
        if (instead is not null)
        {
            db.BeganOn(instead, input.Version);
            (instead.Live, instead.TakenBackReason) = (false, input.Reason!.Trim());
            await db.SaveChangesAsync(stop);
        }
        var row = new ExtendedYearRow { AgencyId = caller.AgencyId, LearnerId = input.Learner, DecideBy = input.DecideBy!.Value, EnteredBy = caller.PersonId };
        db.Add(row);
        await db.SaveChangesAsync(stop);
        return Outcome<Saved>.Of(new(row.Id));
    }
}
