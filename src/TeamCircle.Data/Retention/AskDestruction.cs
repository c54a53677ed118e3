using TeamCircle.Core;
using TeamCircle.Core.People;
using TeamCircle.Core.Retention;
using TeamCircle.Data.Devices;

namespace TeamCircle.Data.Retention;

/// <summary>Notes that a family asked for a part of the record to be destroyed (34 CFR 300.624(b)). It needs no further notice; it still takes two.</summary>
public sealed class AskDestruction(Portal portal)
{
    public sealed record Input
    {
        public int Learner { get; init; }
        public RecordKind? Kind { get; init; }
        public string? AskedBy { get; init; }
        public LocalDate? AskedOn { get; init; }

        /// <summary>Entries of this day and before.</summary>
        public LocalDate? UpTo { get; init; }
    }

    public sealed record Saved(int Destruction);

    public Task<Outcome<Saved>> RunAsync(Caller caller, Guid operation, Input input, CancellationToken stop = default) => portal.WriteAsync(
        Scope.WholeAgency(caller, "retention"), Operation.Of(operation, nameof(AskDestruction), input), db => WorkAsync(db, caller, input, stop), stop);

    private static async Task<Outcome<Saved>> WorkAsync(PortalDb db, Caller caller, Input input, CancellationToken stop)
    {
        if (!RetentionRules.MayKeep(caller, input.Learner))
            return Outcome<Saved>.Refused(Problem.NotFound);
        Problem[] problems = [.. RetentionRules.CheckRequest(input.Kind, input.AskedBy, input.AskedOn, input.UpTo, caller.Today)];
        if (problems.Length > 0)
            return Outcome<Saved>.Refused(problems);
        var (kind, upTo, by) = (input.Kind!.Value, input.UpTo!.Value, input.AskedBy!.Trim());
        if (await ProposeDestructions.FoundAsync(db, input.Learner, kind, upTo, stop) is not (> 0 and var found))
            return Outcome<Saved>.Refused("UpTo", "There is nothing of that part up to that day.");
        var row = new DestructionRow
        {
            AgencyId = caller.AgencyId,
            LearnerId = input.Learner,
            Kind = kind,
            UpTo = upTo,
            AskedBy = by,
            AskedOn = input.AskedOn,
            Found = found,
            ProposedOn = caller.Today,
            NoticeOn = input.AskedOn,
            ToWhom = by,
            Way = "asked for it",
            WaitUntil = caller.Today,
        };
        db.Add(row);
        await db.SaveChangesAsync(stop);
        return Outcome<Saved>.Of(new(row.Id));
    }
}
