using TeamCircle.Core;
using TeamCircle.Core.People;
using TeamCircle.Core.Reports;
using TeamCircle.Data.Devices;

namespace TeamCircle.Data.Reports;

/// <summary>Signs a report as it stands, under a credential. The case manager's own signature, given last, finishes it.</summary>
public sealed class SignReport(Portal portal, TimeProvider clock)
{
    public sealed record Input
    {
        public int Report { get; init; }

        /// <summary>The hash of what was read: one signs nothing else.</summary>
        public string? Hash { get; init; }
        public string? Credential { get; init; }

        /// <summary>Whether the case manager finishes it with this signature.</summary>
        public bool Finish { get; init; }

        /// <summary>For finishing while an owner has not signed: why.</summary>
        public string? Without { get; init; }
    }

    public sealed record Saved(int Report);

    public Task<Outcome<Saved>> RunAsync(Caller caller, Guid operation, Input input, CancellationToken stop = default) => portal.WriteAsync(
        Scope.Of(caller), Operation.Of(operation, nameof(SignReport), input), db => WorkAsync(db, caller, input, stop), stop);

    private async Task<Outcome<Saved>> WorkAsync(PortalDb db, Caller caller, Input input, CancellationToken stop)
    {
        if (await ReportWork.FindAsync(db, caller, input.Report, stop) is not { } work || !ReportRules.MaySign(caller, work.Report.LearnerId, work.People)
            || (input.Finish && !caller.Manages(work.Report.LearnerId)))
            return Outcome<Saved>.Refused(Problem.NotFound);
        if (work.Report.State != ReportState.Open)
            return Outcome<Saved>.Refused(ReportRefusals.Finished);
        if (input.Hash != work.Report.Hash)
            return Outcome<Saved>.Refused("", "The report has changed since you opened this page. Read it again before you sign.");
        var content = work.Content;
        Problem[] problems = [.. ReportRules.CheckCredential(input.Credential),
            .. input.Finish ? ReportRules.CheckFinish(content, work.People, caller.PersonId, input.Without) : ReportRules.CheckReady(content)];
        if (problems.Length > 0)
            return Outcome<Saved>.Refused(problems);
        var now = Instant.FromDateTimeOffset(clock.GetUtcNow());
        db.Add(new ReportSignatureRow
        {
            AgencyId = caller.AgencyId,
            LearnerId = work.Report.LearnerId,
            ReportId = input.Report,
            PersonId = caller.PersonId,
            Credential = input.Credential!.Trim(),
            Hash = work.Report.Hash,
            SignedAt = now,
        });
        if (input.Finish)
            (work.Report.FinishedBy, work.Report.FinishedAt, work.Report.FinishedWithout) = (caller.PersonId, now, ReportRules.Unsigned(work.People, caller.PersonId).Any() ? input.Without!.Trim() : null);
        return Outcome<Saved>.Of(new(input.Report));
    }
}
