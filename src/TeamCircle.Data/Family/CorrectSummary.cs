using TeamCircle.Core;
using TeamCircle.Core.Family;
using TeamCircle.Core.People;
using TeamCircle.Data.Devices;

namespace TeamCircle.Data.Family;

/// <summary>Begins another edition of a published summary, with its words. The family reads the old one until the new one is published.</summary>
public sealed class CorrectSummary(Portal portal, TimeProvider clock)
{
    public sealed record Input
    {
        public int Learner { get; init; }
        public int Summary { get; init; }

        /// <summary>What was wrong: the family reads it beside the new edition.</summary>
        public string? Why { get; init; }
    }

    public sealed record Saved(int Summary);

    public Task<Outcome<Saved>> RunAsync(Caller caller, Guid operation, Input input, CancellationToken stop = default) => portal.WriteAsync(
        Scope.OfLearner(caller, input.Learner), Operation.Of(operation, nameof(CorrectSummary), input), db => WorkAsync(db, caller, input, stop), stop);

    private async Task<Outcome<Saved>> WorkAsync(PortalDb db, Caller caller, Input input, CancellationToken stop)
    {
        if (await SummaryWork.FindAsync(db, caller, input.Learner, input.Summary, stop) is not { State: SummaryState.Published or SummaryState.Withdrawn } old)
            return Outcome<Saved>.Refused(Problem.NotFound);
        Problem[] problems = [.. SummaryRules.CheckReason(input.Why)];
        if (problems.Length > 0)
            return Outcome<Saved>.Refused(problems);
        if (await SummaryWork.HasDraftAsync(db, old.AgencyId, old.LearnerId, stop))
            return Outcome<Saved>.Refused(SummaryWork.AnotherDraft);
        var next = new FamilySummaryRow
        {
            AgencyId = old.AgencyId,
            LearnerId = old.LearnerId,
            Edition = old.Edition + 1,
            CorrectsId = old.Id,
            CorrectsWhy = input.Why!.Trim(),
            FirstDay = old.FirstDay,
            LastDay = old.LastDay,
            BegunBy = caller.PersonId,
            Content = old.Content,
            RecordedAt = EnterRemark.Now(clock),
        };
        db.Add(next);
        await db.SaveChangesAsync(stop);
        return Outcome<Saved>.Of(new(next.Id));
    }
}
