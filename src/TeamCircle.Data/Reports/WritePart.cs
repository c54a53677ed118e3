using Microsoft.EntityFrameworkCore;
using TeamCircle.Core;
using TeamCircle.Core.People;
using TeamCircle.Core.Reports;
using TeamCircle.Data.Devices;

namespace TeamCircle.Data.Reports;

/// <summary>Writes one's own paragraph about one goal: what the others see before one of them joins it.</summary>
public sealed class WritePart(Portal portal, TimeProvider clock)
{
    public sealed record Input
    {
        public int Report { get; init; }
        public int Goal { get; init; }
        public string? Words { get; init; }

        /// <summary>The version on which one began; null for a first one.</summary>
        public int? Version { get; init; }
    }

    public sealed record Saved(int Report);

    public Task<Outcome<Saved>> RunAsync(Caller caller, Guid operation, Input input, CancellationToken stop = default) => portal.WriteAsync(
        Scope.Of(caller), Operation.Of(operation, nameof(WritePart), input), db => WorkAsync(db, caller, input, stop), stop);

    private async Task<Outcome<Saved>> WorkAsync(PortalDb db, Caller caller, Input input, CancellationToken stop)
    {
        if (await ReportWork.FindAsync(db, caller, input.Report, stop) is not { } work || work.Goal(input.Goal) is null
            || !ReportRules.MayWrite(caller, work.Report.LearnerId, work.Owners[input.Goal]))
            return Outcome<Saved>.Refused(Problem.NotFound);
        if (work.Report.State != ReportState.Open)
            return Outcome<Saved>.Refused(ReportRefusals.Finished);
        Problem[] problems = [.. ReportRules.CheckPart(input.Words)];
        if (problems.Length > 0)
            return Outcome<Saved>.Refused(problems);
        var row = await db.ReportParts.SingleOrDefaultAsync(
            p => p.AgencyId == caller.AgencyId && p.ReportId == input.Report && p.GoalId == input.Goal && p.PersonId == caller.PersonId, stop);
        if (row is null)
        {
            row = new() { AgencyId = caller.AgencyId, LearnerId = work.Report.LearnerId, ReportId = input.Report, GoalId = input.Goal, PersonId = caller.PersonId, Words = "" };
            db.Add(row);
        }
        else
        {
            db.BeganOn(row, input.Version ?? 0);
        }
        (row.Words, row.WrittenAt) = (input.Words!.Trim(), Instant.FromDateTimeOffset(clock.GetUtcNow()));
        return Outcome<Saved>.Of(new(input.Report));
    }
}
