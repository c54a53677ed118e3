using TeamCircle.Core;
using TeamCircle.Core.People;
using TeamCircle.Core.Retention;
using TeamCircle.Data.Devices;

namespace TeamCircle.Data.Retention;

/// <summary>Notes that the family was told that a part of the record is no longer needed and will be destroyed (34 CFR 300.624(a)).</summary>
public sealed class TellFamily(Portal portal)
{
    public sealed record Input : DestructionInput
    {
        public LocalDate? NoticeOn { get; init; }
        public string? ToWhom { get; init; }

        /// <summary>How: by post, handed over, read out.</summary>
        public string? Way { get; init; }
    }

    /// <param name="WaitUntil">The first day on which a director may agree.</param>
    public sealed record Saved(LocalDate WaitUntil);

    public Task<Outcome<Saved>> RunAsync(Caller caller, Guid operation, Input input, CancellationToken stop = default) => portal.WriteAsync(
        Scope.WholeAgency(caller, "retention"), Operation.Of(operation, nameof(TellFamily), input), db => WorkAsync(db, caller, input, stop), stop);

    private static async Task<Outcome<Saved>> WorkAsync(PortalDb db, Caller caller, Input input, CancellationToken stop)
    {
        var found = await DestructionTurn.FindAsync(db, caller, input, stop);
        if (found.Value is not { } row)
            return Outcome<Saved>.Refused(found.Problems);
        if (row.NoticeOn is not null)
            return Outcome<Saved>.Refused("", "The family was told already.");
        Problem[] problems = [.. RetentionRules.CheckNotice(input.NoticeOn, input.ToWhom, input.Way, row.ProposedOn, caller.Today)];
        if (problems.Length > 0)
            return Outcome<Saved>.Refused(problems);
        var until = input.NoticeOn!.Value.PlusDays(row.NoticeDays);
        (row.NoticeOn, row.ToWhom, row.Way, row.WaitUntil) = (input.NoticeOn, input.ToWhom!.Trim(), input.Way!.Trim(), until);
        return Outcome<Saved>.Of(new(until));
    }
}
