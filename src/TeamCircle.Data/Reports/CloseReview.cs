using TeamCircle.Core;
using TeamCircle.Core.People;
using TeamCircle.Core.Reports;
using TeamCircle.Data.Devices;

namespace TeamCircle.Data.Reports;

/// <summary>Says what came of looking at the teaching of a goal whose progress was not enough. The report itself is not changed by it.</summary>
public sealed class CloseReview(Portal portal, TimeProvider clock)
{
    public sealed record Input
    {
        public int Report { get; init; }
        public int Goal { get; init; }
        public int Version { get; init; }
        public string? Word { get; init; }
    }

    public sealed record Saved(int Report);

    public Task<Outcome<Saved>> RunAsync(Caller caller, Guid operation, Input input, CancellationToken stop = default) => portal.WriteAsync(
        Scope.Of(caller), Operation.Of(operation, nameof(CloseReview), input), db => WorkAsync(db, caller, input, stop), stop);

    private async Task<Outcome<Saved>> WorkAsync(PortalDb db, Caller caller, Input input, CancellationToken stop)
    {
        if (await ReportWork.FindAsync(db, caller, input.Report, stop) is not { } work || work.Goal(input.Goal) is not { Status: ReportStatus.NotEnough } goal
            || !ReportRules.MayWrite(caller, work.Report.LearnerId, work.Owners[input.Goal]))
            return Outcome<Saved>.Refused(Problem.NotFound);
        if (work.Report.State is ReportState.Open or ReportState.Replaced || goal.ReviewedAt is not null)
            return Outcome<Saved>.Refused("", goal.ReviewedAt is null ? "The review begins when the report is finished." : "Somebody has said meanwhile what came of it.");
        Problem[] problems = [.. ReportRules.CheckReview(input.Word)];
        if (problems.Length > 0)
            return Outcome<Saved>.Refused(problems);
        db.BeganOn(goal, input.Version);
        (goal.ReviewedBy, goal.ReviewedAt, goal.ReviewWord) = (caller.PersonId, Instant.FromDateTimeOffset(clock.GetUtcNow()), input.Word!.Trim());
        return Outcome<Saved>.Of(new(input.Report));
    }
}
