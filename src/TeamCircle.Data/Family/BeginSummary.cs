using Microsoft.EntityFrameworkCore;
using TeamCircle.Core;
using TeamCircle.Core.Family;
using TeamCircle.Core.People;
using TeamCircle.Data.Devices;

namespace TeamCircle.Data.Family;

/// <summary>Begins the draft of a summary for the family, with what facts can say already.</summary>
public sealed class BeginSummary(Portal portal, TimeProvider clock)
{
    public sealed record Input
    {
        public int Learner { get; init; }

        /// <summary>Both days belong to it.</summary>
        public LocalDate? From { get; init; }
        public LocalDate? To { get; init; }
    }

    public sealed record Saved(int Summary);

    public Task<Outcome<Saved>> RunAsync(Caller caller, Guid operation, Input input, CancellationToken stop = default) => portal.WriteAsync(
        Scope.OfLearner(caller, input.Learner), Operation.Of(operation, nameof(BeginSummary), input), db => WorkAsync(db, caller, input, stop), stop);

    private async Task<Outcome<Saved>> WorkAsync(PortalDb db, Caller caller, Input input, CancellationToken stop)
    {
        var (agency, learner) = (caller.AgencyId, input.Learner);
        if (!SummaryRules.MayWrite(caller, learner) || await SummaryWork.ChildAsync(db, agency, learner, stop) is not { } child)
            return Outcome<Saved>.Refused(Problem.NotFound);
        Problem[] problems = [.. SummaryRules.CheckSpan(input.From, input.To, caller.Today)];
        if (problems.Length > 0)
            return Outcome<Saved>.Refused(problems);
        if (await SummaryWork.HasDraftAsync(db, agency, learner, stop))
            return Outcome<Saved>.Refused(SummaryWork.AnotherDraft);
        var facts = await SummaryFigures.ReadAsync(db, caller, learner, input.From!.Value, input.To!.Value, stop);
        var row = new FamilySummaryRow
        {
            AgencyId = agency,
            LearnerId = learner,
            FirstDay = input.From.Value,
            LastDay = input.To.Value,
            BegunBy = caller.PersonId,
            Content = SummaryDraft.Of(facts, child, caller.Name).Write(),
            RecordedAt = EnterRemark.Now(clock),
        };
        db.Add(row);
        await db.SaveChangesAsync(stop);
        return Outcome<Saved>.Of(new(row.Id));
    }
}
