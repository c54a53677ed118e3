using TeamCircle.Core;
using TeamCircle.Core.People;
using TeamCircle.Core.Reports;
using TeamCircle.Data.Devices;
using TeamCircle.Data.Quiet;

namespace TeamCircle.Data.Reports;

/// <summary>Lets the family read a finished report, or no longer. Nothing else shares one.</summary>
public sealed class ShareReport(Portal portal, TimeProvider clock)
{
    public sealed record Input
    {
        public int Report { get; init; }
        public int Version { get; init; }

        /// <summary>False takes it back.</summary>
        public bool Share { get; init; }
    }

    public sealed record Saved(int Report);

    public Task<Outcome<Saved>> RunAsync(Caller caller, Guid operation, Input input, CancellationToken stop = default) => portal.WriteAsync(
        Scope.Of(caller), Operation.Of(operation, nameof(ShareReport), input), db => WorkAsync(db, caller, input, stop), stop);

    private async Task<Outcome<Saved>> WorkAsync(PortalDb db, Caller caller, Input input, CancellationToken stop)
    {
        if (await ReportWork.FindAsync(db, caller, input.Report, stop) is not { } work || !caller.Manages(work.Report.LearnerId))
            return Outcome<Saved>.Refused(Problem.NotFound);
        if (work.Report.State != (input.Share ? ReportState.Finished : ReportState.Shared))
            return Outcome<Saved>.Refused("", input.Share ? "Only a finished report that the family cannot read yet can be shared." : "The family cannot read this report.");
        if (input.Share && await QuietLearners.HasAsync(db, caller.AgencyId, work.Report.LearnerId, stop))
            return Outcome<Saved>.Refused("", QuietLearners.Refusal);
        db.BeganOn(work.Report, input.Version);
        work.Report.SharedBy = input.Share ? caller.PersonId : null;
        work.Report.SharedAt = input.Share ? Instant.FromDateTimeOffset(clock.GetUtcNow()) : null;
        return Outcome<Saved>.Of(new(input.Report));
    }
}
