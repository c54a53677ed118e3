using Microsoft.EntityFrameworkCore;
using TeamCircle.Core;
using TeamCircle.Core.Names;
using TeamCircle.Core.People;
using TeamCircle.Data.Devices;
using TeamCircle.Data.Learners;

namespace TeamCircle.Data.Names;

/// <summary>Changes a learner's legal name from a day on, on a paper, or the name that the learner goes by. What was sealed before keeps the legal name of then.</summary>
public sealed class RenameLearner(Portal portal, TimeProvider clock)
{
    public sealed record Input
    {
        public int Learner { get; init; }
        public int Version { get; init; }

        /// <summary>The legal name.</summary>
        public string? Name { get; init; }

        /// <summary>The name on pages; null: the legal one.</summary>
        public string? Called { get; init; }

        /// <summary>Asked for where the legal name changes, with the paper.</summary>
        public LocalDate? FromDay { get; init; }
        public string? Paper { get; init; }
    }

    public sealed record Saved(int Learner);

    public Task<Outcome<Saved>> RunAsync(Caller caller, Guid operation, Input input, CancellationToken stop = default) => portal.WritePlanAsync(
        caller, input.Learner, Operation.Of(operation, nameof(RenameLearner), input), db => WorkAsync(db, caller, input, stop), stop);

    private async Task<Outcome<Saved>> WorkAsync(PortalDb db, Caller caller, Input input, CancellationToken stop)
    {
        if (await db.Learners.SingleOrDefaultAsync(l => l.AgencyId == caller.AgencyId && l.Id == input.Learner, stop) is not { } row)
            return Outcome<Saved>.Refused(Problem.NotFound);
        var (legal, called) = (input.Name?.Trim() ?? "", string.IsNullOrWhiteSpace(input.Called) ? null : input.Called.Trim());
        var before = row.LegalName ?? row.Name;
        var last = await db.LearnerNames.Where(n => n.AgencyId == caller.AgencyId && n.LearnerId == row.Id).MaxAsync(n => (LocalDate?)n.UntilDay, stop);
        List<Problem> problems = legal != before ? [.. NameRules.Check(legal, input.FromDay, input.Paper, last, caller.Today)] : [];
        if (called?.Length > NameRules.LongestName)
            problems.Add(new(nameof(input.Called), $"Give the name in under {NameRules.LongestName} letters."));
        if (problems.Count > 0)
            return Outcome<Saved>.Refused(problems);
        db.Touch(row, input.Version);
        (row.Name, row.LegalName) = called is null || called == legal ? (legal, null) : (called, legal);
        if (legal != before)
            db.Add(new LearnerNameRow
            {
                AgencyId = caller.AgencyId,
                LearnerId = row.Id,
                Name = before,
                UntilDay = input.FromDay!.Value,
                Paper = input.Paper!.Trim(),
                ChangedBy = caller.PersonId,
                ChangedAt = Instant.FromDateTimeOffset(clock.GetUtcNow()),
            });
        return Outcome<Saved>.Of(new(row.Id));
    }
}
