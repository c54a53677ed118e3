using TeamCircle.Core;
using TeamCircle.Core.People;
using TeamCircle.Core.Reports;
using TeamCircle.Data.Devices;

namespace TeamCircle.Data.Reports;

/// <summary>Brings the figures on record into an open report anew. Signatures that stood for the old ones stand no longer.</summary>
public sealed class BringInFigures(Portal portal)
{
    public sealed record Input
    {
        public int Report { get; init; }
        public int Version { get; init; }
    }

    public sealed record Saved(int Report);

    public Task<Outcome<Saved>> RunAsync(Caller caller, Guid operation, Input input, CancellationToken stop = default) => portal.WriteAsync(
        Scope.Of(caller), Operation.Of(operation, nameof(BringInFigures), input), db => WorkAsync(db, caller, input, stop), stop);

    private static async Task<Outcome<Saved>> WorkAsync(PortalDb db, Caller caller, Input input, CancellationToken stop)
    {
        if (await ReportWork.FindAsync(db, caller, input.Report, stop) is not { } work || !ReportRules.MayBegin(caller, work.Report.LearnerId))
            return Outcome<Saved>.Refused(Problem.NotFound);
        if (work.Report.State != ReportState.Open)
            return Outcome<Saved>.Refused(ReportRefusals.Finished);
        db.BeganOn(work.Report, input.Version);
        work.Report.Facts = (await ReportFigures.ReadAsync(db, caller, work.Report.LearnerId, new(work.Period.StartDay, work.Period.EndDay), [.. work.Goals.Select(g => g.GoalId)], stop)).Write();
        work.Hashed();
        return Outcome<Saved>.Of(new(work.Report.Id));
    }
}
