using Microsoft.EntityFrameworkCore;
using TeamCircle.Core;
using TeamCircle.Core.Family;
using TeamCircle.Core.People;
using TeamCircle.Data.Devices;

namespace TeamCircle.Data.Family;

/// <summary>Takes down what a family said by word of mouth, in its own words, with who said it and when; also where families cannot tell the team on their page.</summary>
public sealed class EnterRemark(Portal portal, TimeProvider clock)
{
    public sealed record Input
    {
        public int Learner { get; init; }
        public RemarkKind? Kind { get; init; }

        /// <summary>The visit that it is about; null: none.</summary>
        public Guid? Visit { get; init; }
        public string? Words { get; init; }
        public string? SaidBy { get; init; }
        public LocalDate? SaidOn { get; init; }
    }

    public sealed record Saved(int Remark);

    public Task<Outcome<Saved>> RunAsync(Caller caller, Guid operation, Input input, CancellationToken stop = default) => portal.WriteAsync(
        Scope.OfLearner(caller, input.Learner), Operation.Of(operation, nameof(EnterRemark), input), db => WorkAsync(db, caller, input, stop), stop);

    private Task<Outcome<Saved>> WorkAsync(PortalDb db, Caller caller, Input input, CancellationToken stop) =>
        RemarkRules.MayEnter(caller, input.Learner)
            ? AddAsync(db, caller, input.Learner, new(input.Kind, input.Visit, input.Words, input.SaidBy, input.SaidOn), Now(clock), byFamily: false, stop)
            : Task.FromResult(Outcome<Saved>.Refused(Problem.NotFound));

    internal static Instant Now(TimeProvider clock) => Instant.FromDateTimeOffset(clock.GetUtcNow());

    internal static async Task<Outcome<Saved>> AddAsync(PortalDb db, Caller caller, int learner, RemarkSaid remark, Instant now, bool byFamily, CancellationToken stop)
    {
        Problem[] problems = [.. RemarkRules.Check(remark, caller.Today)];
        if (problems.Length > 0)
            return Outcome<Saved>.Refused(problems);
        if (remark.Visit is { } visit && !await db.Visits.AnyAsync(v => v.AgencyId == caller.AgencyId && v.LearnerId == learner && v.Id == visit && v.Live, stop))
            return Outcome<Saved>.Refused(nameof(Input.Visit), "Choose one of the visits in the list.");
        var row = new FamilyRemarkRow
        {
            AgencyId = caller.AgencyId,
            LearnerId = learner,
            VisitId = remark.Visit,
            Kind = remark.Kind!.Value,
            Words = remark.Words!.Trim(),
            SaidBy = remark.SaidBy!.Trim(),
            SaidOn = remark.SaidOn!.Value,
            EnteredBy = caller.PersonId,
            EnteredAt = now,
            ByFamily = byFamily,
        };
        db.Add(row);
        await db.SaveChangesAsync(stop);
        return Outcome<Saved>.Of(new(row.Id));
    }
}
