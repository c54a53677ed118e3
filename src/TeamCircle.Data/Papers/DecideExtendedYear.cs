using Microsoft.EntityFrameworkCore;
using TeamCircle.Core;
using TeamCircle.Core.Papers;
using TeamCircle.Core.People;
using TeamCircle.Data.Devices;

namespace TeamCircle.Data.Papers;

/// <summary>Records what the team decided about an extended school year (34 CFR 300.106), with what it weighed, who took part and the goals it named.</summary>
public sealed class DecideExtendedYear(Portal portal)
{
    public sealed record Input
    {
        public int Learner { get; init; }
        public int Decision { get; init; }
        public int Version { get; init; }
        public ExtendedYearAnswer? Answer { get; init; }
        public LocalDate? DecidedOn { get; init; }
        public string? Reason { get; init; }
        public string? TookPart { get; init; }
        public LocalDate? FamilyToldOn { get; init; }

        /// <summary>The goals named for it; where it is not needed they are left out.</summary>
        public int[] Goals { get; init; } = [];
    }

    public sealed record Saved(int Decision);

    public Task<Outcome<Saved>> RunAsync(Caller caller, Guid operation, Input input, CancellationToken stop = default) => portal.WriteAsync(
        Scope.OfLearner(caller, input.Learner), Operation.Of(operation, nameof(DecideExtendedYear), input), db => WorkAsync(db, caller, input, stop), stop);

    private static async Task<Outcome<Saved>> WorkAsync(PortalDb db, Caller caller, Input input, CancellationToken stop)
    {
        if (!ExtendedYears.MayKeep(caller, input.Learner)
            || await db.ExtendedYears.SingleOrDefaultAsync(e => e.AgencyId == caller.AgencyId && e.LearnerId == input.Learner && e.Id == input.Decision, stop) is not { } row)
            return Outcome<Saved>.Refused(Problem.NotFound);
        if (row.Answer is not null)
            return Outcome<Saved>.Refused("", "The team's decision is recorded already.");
        List<Problem> problems = [.. ExtendedYears.CheckDecision(input.Answer, input.DecidedOn, input.Reason, input.TookPart, input.FamilyToldOn, caller.Today)];
        int[] goals = input.Answer == ExtendedYearAnswer.Needed ? [.. input.Goals.Distinct().Order()] : [];
        if (await db.Goals.CountAsync(g => g.AgencyId == caller.AgencyId && g.LearnerId == input.Learner && goals.Contains(g.Id), stop) < goals.Length)
            problems.Add(new(nameof(input.Goals), "Choose from the goals in the list."));
        if (problems.Count > 0)
            return Outcome<Saved>.Refused(problems);
        db.BeganOn(row, input.Version);
        (row.Answer, row.DecidedOn, row.FamilyToldOn, row.Goals) = (input.Answer, input.DecidedOn, input.FamilyToldOn, goals);
        (row.Reason, row.TookPart) = (input.Reason!.Trim(), input.TookPart!.Trim());
        return Outcome<Saved>.Of(new(row.Id));
    }
}
