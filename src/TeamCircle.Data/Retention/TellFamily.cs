using Microsoft.EntityFrameworkCore;
using TeamCircle.Core;
using TeamCircle.Core.People;
using TeamCircle.Core.Retention;
using TeamCircle.Data.Devices;

namespace TeamCircle.Data.Retention;

/// <summary>Notes that the family was told of all that is proposed: that it is no longer needed and will be destroyed (34 CFR 300.624(a)).</summary>
public sealed class TellFamily(Portal portal)
{
    public sealed record Input
    {
        public int Learner { get; init; }
        public LocalDate? NoticeOn { get; init; }
        public string? ToWhom { get; init; }

        /// <summary>How: by post, handed over, read out.</summary>
        public string? Way { get; init; }
    }

    /// <param name="WaitUntil">The first day on which a director may agree to all of it.</param>
    public sealed record Saved(LocalDate WaitUntil);

    public Task<Outcome<Saved>> RunAsync(Caller caller, Guid operation, Input input, CancellationToken stop = default) => portal.WriteAsync(
        Scope.WholeAgency(caller, "retention"), Operation.Of(operation, nameof(TellFamily), input), db => WorkAsync(db, caller, input, stop), stop);

    private static async Task<Outcome<Saved>> WorkAsync(PortalDb db, Caller caller, Input input, CancellationToken stop)
    {
        if (!RetentionRules.MayKeep(caller, input.Learner))
            return Outcome<Saved>.Refused(Problem.NotFound);
        var rows = await db.Destructions.Where(
            d => d.AgencyId == caller.AgencyId && d.LearnerId == input.Learner && d.NoticeOn == null && d.StoppedAt == null).OrderBy(d => d.Id).ToListAsync(stop);
        if (rows.Count == 0)
            return Outcome<Saved>.Refused("", "There is nothing that the family is still to be told.");
        Problem[] problems = [.. RetentionRules.CheckNotice(input.NoticeOn, input.ToWhom, input.Way, rows.Max(r => r.ProposedOn), caller.Today)];
        if (problems.Length > 0)
            return Outcome<Saved>.Refused(problems);
        foreach (var row in rows)
            (row.NoticeOn, row.ToWhom, row.Way, row.WaitUntil) = (input.NoticeOn, input.ToWhom!.Trim(), input.Way!.Trim(), input.NoticeOn!.Value.PlusDays(row.NoticeDays));
        return Outcome<Saved>.Of(new(rows.Max(r => r.WaitUntil!.Value)));
    }
}
