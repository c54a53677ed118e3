using Microsoft.EntityFrameworkCore;
using TeamCircle.Core;
using TeamCircle.Core.Moves;
using TeamCircle.Core.People;
using TeamCircle.Data.Devices;

namespace TeamCircle.Data.Moves;

/// <summary>Takes a last day back: roles and relations stand again as they did before. What was handed over is undone first, by the case managers.</summary>
public sealed class TakeBackLastDay(Portal portal)
{
    public sealed record Input
    {
        public int Person { get; init; }
        public int Version { get; init; }
        public string? Reason { get; init; }
    }

    public sealed record Saved(int Person);

    public async Task<Outcome<Saved>> RunAsync(Caller caller, Guid operation, Input input, CancellationToken stop = default) => caller.Is(Role.Administrator)
        ? await portal.WriteAsync(Scope.WholeAgency(caller, "a last day"), Operation.Of(operation, nameof(TakeBackLastDay), input), db => WorkAsync(db, caller.AgencyId, input, stop), stop)
        : Outcome<Saved>.Refused(Problem.NotFound);

    private static async Task<Outcome<Saved>> WorkAsync(PortalDb db, int agency, Input input, CancellationToken stop)
    {
        if (await db.LastDays.SingleOrDefaultAsync(d => d.AgencyId == agency && d.PersonId == input.Person, stop) is not { } last)
            return Outcome<Saved>.Refused(Problem.NotFound);
        Problem[] problems = [.. LastDayRules.CheckWords(input.Reason)];
        if (problems.Length > 0)
            return Outcome<Saved>.Refused(problems);
        if (await db.LearnerHandOvers.AnyAsync(h => h.AgencyId == agency && h.PersonId == input.Person && h.LastDay == last.Day && h.UndoneAt == null, stop))
            return Outcome<Saved>.Refused("", "Learners were handed over for that day. Their case managers undo that first.");
        db.BeganOn(last, input.Version);
        var reason = input.Reason!.Trim();
        (last.Live, last.TakenBackReason) = (false, reason);
        await db.SaveChangesAsync(stop);
        return await BroughtBack.RunAsync(db, agency, last.Operation, reason, stop) is { } problem ? Outcome<Saved>.Refused(problem) : Outcome<Saved>.Of(new(input.Person));
    }
}
