using Microsoft.EntityFrameworkCore;
using TeamCircle.Core;
using TeamCircle.Core.Papers;
using TeamCircle.Core.People;
using TeamCircle.Data.Devices;

namespace TeamCircle.Data.Papers;

/// <summary>Brings what is on record into a pack anew, until it has gone out; or calls its meeting off with the reason.</summary>
public sealed class ChangePack(Portal portal)
{
    public sealed record Input
    {
        public int Learner { get; init; }
        public int Meeting { get; init; }
        public int Version { get; init; }

        /// <summary>Why the meeting does not take place, or on another day; null brings the figures in anew.</summary>
        public string? Reason { get; init; }
        public bool CallOff { get; init; }
    }

    public sealed record Saved(int Meeting);

    public Task<Outcome<Saved>> RunAsync(Caller caller, Guid operation, Input input, CancellationToken stop = default) => portal.WriteAsync(
        Scope.OfLearner(caller, input.Learner), Operation.Of(operation, nameof(ChangePack), input), db => WorkAsync(db, caller, input, stop), stop);

    private static async Task<Outcome<Saved>> WorkAsync(PortalDb db, Caller caller, Input input, CancellationToken stop)
    {
        if (!BoundDates.MayKeep(caller, input.Learner)
            || await db.Meetings.SingleOrDefaultAsync(m => m.AgencyId == caller.AgencyId && m.LearnerId == input.Learner && m.Id == input.Meeting, stop) is not { } row)
            return Outcome<Saved>.Refused(Problem.NotFound);
        Problem[] problems = input.CallOff ? [.. BoundDates.CheckReason(input.Reason)] : [];
        if (problems.Length > 0)
            return Outcome<Saved>.Refused(problems);
        db.BeganOn(row, input.Version);
        if (input.CallOff)
        {
            (row.Live, row.TakenBackReason) = (false, input.Reason!.Trim());
            return Outcome<Saved>.Of(new(row.Id));
        }
        if (await db.Deliveries.AnyAsync(d => d.AgencyId == caller.AgencyId && d.LearnerId == input.Learner && d.MeetingId == row.Id, stop))
            return Outcome<Saved>.Refused("", "This pack has gone out: it stays what the family was given. Make another one for the same meeting.");
        if (await new PackFigures(db, caller, input.Learner).ReadAsync(stop) is not { } content)
            return Outcome<Saved>.Refused("", "No plan has begun yet, so there is nothing to put into a pack.");
        row.Content = content.Write();
        return Outcome<Saved>.Of(new(row.Id));
    }
}
