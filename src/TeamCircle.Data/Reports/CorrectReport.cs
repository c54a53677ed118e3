using TeamCircle.Core;
using TeamCircle.Core.People;
using TeamCircle.Core.Reports;
using TeamCircle.Data.Devices;

namespace TeamCircle.Data.Reports;

/// <summary>Begins another edition of a finished report, with its words. The old one stays as it was signed, and the family reads neither until the new one is shared.</summary>
public sealed class CorrectReport(Portal portal)
{
    public sealed record Input
    {
        public int Report { get; init; }
        public int Version { get; init; }
        public string? Reason { get; init; }
    }

    public sealed record Saved(int Report);

    public Task<Outcome<Saved>> RunAsync(Caller caller, Guid operation, Input input, CancellationToken stop = default) => portal.WriteAsync(
        Scope.Of(caller), Operation.Of(operation, nameof(CorrectReport), input), db => WorkAsync(db, caller, input, stop), stop);

    private static async Task<Outcome<Saved>> WorkAsync(PortalDb db, Caller caller, Input input, CancellationToken stop)
    {
        if (await ReportWork.FindAsync(db, caller, input.Report, stop) is not { } work || !caller.Manages(work.Report.LearnerId))
            return Outcome<Saved>.Refused(Problem.NotFound);
        if (work.Report.State is ReportState.Open or ReportState.Replaced)
            return Outcome<Saved>.Refused("", "Only a finished report is corrected; an open one is simply changed.");
        Problem[] problems = [.. ReportRules.CheckCorrection(input.Reason)];
        if (problems.Length > 0)
            return Outcome<Saved>.Refused(problems);
        var old = work.Report;
        db.BeganOn(old, input.Version);
        (old.Live, old.TakenBackReason) = (false, input.Reason!.Trim());
        await db.SaveChangesAsync(stop); // one edition stands at a time: the old one goes before the new one comes
        var next = new ReportRow
        {
            AgencyId = old.AgencyId,
            LearnerId = old.LearnerId,
            PeriodId = old.PeriodId,
            Edition = old.Edition + 1,
            BegunBy = caller.PersonId,
            Facts = old.Facts,
            Hash = (work.Content with { Edition = old.Edition + 1 }).Hash(),
        };
        db.Add(next);
        await db.SaveChangesAsync(stop);
        db.AddRange(work.Goals.Select(g => Copy(g, next.Id)));
        return Outcome<Saved>.Of(new(next.Id));
    }

    private static ReportGoalRow Copy(ReportGoalRow goal, int report) => new()
    {
        AgencyId = goal.AgencyId,
        LearnerId = goal.LearnerId,
        ReportId = report,
        GoalId = goal.GoalId,
        Position = goal.Position,
        Status = goal.Status,
        Reason = goal.Reason,
        Words = goal.Words,
        JoinedBy = goal.JoinedBy,
        JoinedAt = goal.JoinedAt,
        ReviewedBy = goal.ReviewedBy,
        ReviewedAt = goal.ReviewedAt,
        ReviewWord = goal.ReviewWord,
    };
}
