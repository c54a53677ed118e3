using TeamCircle.Core;
using TeamCircle.Core.Family;
using TeamCircle.Core.People;
using TeamCircle.Data.Devices;

namespace TeamCircle.Data.Family;

/// <summary>Throws a draft away, or withdraws what was published: the family reads it no more, and staff see that it was there and why it went.</summary>
public sealed class TakeBackSummary(Portal portal, TimeProvider clock)
{
    public sealed record Input
    {
        public int Learner { get; init; }
        public int Summary { get; init; }
        public int Version { get; init; }

        /// <summary>Needed for a published one.</summary>
        public string? Why { get; init; }
    }

    public sealed record Saved(int Summary, bool WasPublished);

    public Task<Outcome<Saved>> RunAsync(Caller caller, Guid operation, Input input, CancellationToken stop = default) => portal.WriteAsync(
        Scope.OfLearner(caller, input.Learner), Operation.Of(operation, nameof(TakeBackSummary), input), db => WorkAsync(db, caller, input, stop), stop);

    private async Task<Outcome<Saved>> WorkAsync(PortalDb db, Caller caller, Input input, CancellationToken stop)
    {
        if (await SummaryWork.FindAsync(db, caller, input.Learner, input.Summary, stop) is not { } row || row.State == SummaryState.Withdrawn)
            return Outcome<Saved>.Refused(Problem.NotFound);
        var wasPublished = row.State == SummaryState.Published;
        Problem[] problems = wasPublished ? [.. SummaryRules.CheckReason(input.Why)] : [];
        if (problems.Length > 0)
            return Outcome<Saved>.Refused(problems);
        db.BeganOn(row, input.Version);
        if (wasPublished)
            (row.WithdrawnBy, row.WithdrawnAt, row.WithdrawnWhy) = (caller.PersonId, EnterRemark.Now(clock), input.Why!.Trim());
        else
            (row.Live, row.TakenBackReason) = (false, "the draft was thrown away");
        return Outcome<Saved>.Of(new(row.Id, wasPublished));
    }
}
