using TeamCircle.Core;
using TeamCircle.Core.People;
using TeamCircle.Core.Retention;
using TeamCircle.Data.Devices;

namespace TeamCircle.Data.Retention;

/// <summary>Says from now on how long a part of every record is kept. What was proposed under an older rule is not taken back.</summary>
public sealed class SetRetention(Portal portal)
{
    public sealed record Input
    {
        public RecordKind? Kind { get; init; }

        /// <summary>Null: kept, without end.</summary>
        public int? Years { get; init; }
        public CountedFrom? From { get; init; }
        public int? NoticeDays { get; init; } = RetentionRules.UsualNoticeDays;
        public string? Reason { get; init; }
    }

    public sealed record Saved(int Rule);

    public Task<Outcome<Saved>> RunAsync(Caller caller, Guid operation, Input input, CancellationToken stop = default) => portal.WriteAsync(
        Scope.WholeAgency(caller, "director"), Operation.Of(operation, nameof(SetRetention), input), db => WorkAsync(db, caller, input, stop), stop);

    private static async Task<Outcome<Saved>> WorkAsync(PortalDb db, Caller caller, Input input, CancellationToken stop)
    {
        if (!RetentionRules.MayDecide(caller))
            return Outcome<Saved>.Refused(Problem.NotFound);
        Problem[] problems = [.. RetentionRules.Check(input.Kind, input.Years, input.From, input.NoticeDays, input.Reason)];
        if (problems.Length > 0)
            return Outcome<Saved>.Refused(problems);
        var rule = new RetentionRuleRow
        {
            AgencyId = caller.AgencyId,
            Kind = input.Kind!.Value,
            Years = input.Years,
            CountedFrom = input.Years is null ? null : input.From,
            NoticeDays = input.NoticeDays!.Value,
            Reason = input.Reason!.Trim(),
            SetBy = caller.PersonId,
        };
        db.Add(rule);
        await db.SaveChangesAsync(stop);
        return Outcome<Saved>.Of(new(rule.Id));
    }
}
