using System.Text.Json;
using Microsoft.EntityFrameworkCore;
using TeamCircle.Core;
using TeamCircle.Core.Closing;
using TeamCircle.Core.People;
using TeamCircle.Data.Devices;
using TeamCircle.Data.Sessions;

namespace TeamCircle.Data.Closing;

/// <summary>Restates a closed count: takes in what arrived late and at most one correction, and seals another edition, all in one act. The editions before it stay.</summary>
public sealed class RestatePeriod(Portal portal, SealStatement sealing, EnterSetAside enter, CorrectSession correct)
{
    public sealed record Input
    {
        public int Learner { get; init; }
        public int Period { get; init; }

        /// <summary>The edition that was read: nobody restates another one.</summary>
        public int Statement { get; init; }
        public string? Reason { get; init; }

        /// <summary>What devices sent and was set aside: what is to be taken in.</summary>
        public IReadOnlyList<Aside> Asides { get; init; } = [];

        /// <summary>Null where no visit is corrected.</summary>
        public CorrectSession.Input? Correction { get; init; }
        public string? Credential { get; init; }

        /// <summary>By the obstacle's key: why the count is sealed although it stands. What is missing here holds on as it was said with the edition before.</summary>
        public IReadOnlyDictionary<string, string?> Words { get; init; } = new Dictionary<string, string?>();
    }

    public sealed record Aside(int Id, int Version);

    public sealed record Restated(int Statement, int Edition);

    public async Task<Outcome<Restated>> RunAsync(Caller caller, Guid operation, Input input, CancellationToken stop = default)
    {
        if (!caller.IsStaff || !caller.Manages(input.Learner))
            return Outcome<Restated>.Refused(Problem.NotFound);
        await sealing.BeforeAsync(caller, stop);
        return await portal.WriteAsync(
            Scope.OfLearner(caller, input.Learner, "restating a closed count"), Operation.Of(operation, nameof(RestatePeriod), input),
            db => WorkAsync(db, caller, operation, input, stop), stop);
    }

    private async Task<Outcome<Restated>> WorkAsync(PortalDb db, Caller caller, Guid operation, Input input, CancellationToken stop)
    {
        if (await SealStatement.LockAsync(db, caller, input.Learner, input.Period, stop) is not { } row)
            return Outcome<Restated>.Refused(Problem.NotFound);
        Problem[] problems = [.. await ProblemsAsync(db, row, input, stop)];
        if (problems.Length > 0)
            return Outcome<Restated>.Refused(problems);
        // The name of the restatement: the database lets through what bears on this count, and on no other closed one.
        await db.Database.ExecuteSqlAsync($"select set_config('app.restatement', {$"{input.Learner}/{input.Period}"}, true)", stop);
        if (await TakeInAsync(db, caller, operation, input, stop) is { Count: > 0 } inTheWay)
            return Outcome<Restated>.Refused(inTheWay);
        await db.SaveChangesAsync(stop);
        var sealedNow = await sealing.RunAsync(
            db, caller, row, new(input.Learner, input.Period, input.Credential, await WordsAsync(db, caller, input, stop)), null, new(input.Reason!.Trim(), null), stop);
        return sealedNow.Value is { } statement ? Outcome<Restated>.Of(new(statement.Id, statement.Edition)) : Outcome<Restated>.Refused(sealedNow.Problems);
    }

    private static async Task<IEnumerable<Problem>> ProblemsAsync(PortalDb db, LearnerPeriodRow row, Input input, CancellationToken stop)
    {
        if (row.ClosedAt is null)
            return [new("", "This count is open. What is missing can be entered as always.")];
        var last = await db.Statements.Where(s => s.AgencyId == row.AgencyId && s.LearnerId == input.Learner && s.PeriodId == input.Period)
            .OrderByDescending(s => s.Edition).Select(s => s.Id).FirstOrDefaultAsync(stop);
        if (last != input.Statement)
            return [new("", "Somebody restated this count meanwhile. Read the last edition first.")];
        var reason = ClosingRules.CheckReason(nameof(input.Reason), input.Reason, "Say why the count is restated.");
        return input.Asides.Count == 0 && input.Correction is null ? [.. reason, new("", "Choose what is taken in, or correct a visit.")] : reason;
    }

    // What its debts have paid since stands in the way again once they are withdrawn, and no page could ask about it.
    private static async Task<IReadOnlyDictionary<string, string?>> WordsAsync(PortalDb db, Caller caller, Input input, CancellationToken stop)
    {
        var left = await db.Statements.Where(s => s.AgencyId == caller.AgencyId && s.Id == input.Statement).Select(s => s.LeftStanding).SingleAsync(stop);
        var words = ClosingRules.Said(JsonSerializer.Deserialize<LeftStanding[]>(left, StrictJson.Options)!);
        foreach (var (obstacle, word) in input.Words)
            words[obstacle] = word;
        return words;
    }

    private async Task<IReadOnlyList<Problem>> TakeInAsync(PortalDb db, Caller caller, Guid operation, Input input, CancellationToken stop)
    {
        foreach (var aside in input.Asides)
        {
            if (!await db.SetAsides.AnyAsync(s => s.AgencyId == caller.AgencyId && s.Id == aside.Id && s.LearnerId == input.Learner, stop))
                return [Problem.NotFound];
            if (await enter.WorkAsync(db, caller, operation, new(aside.Id, aside.Version), stop) is { Value: null } refused)
                return refused.Problems;
        }
        if (input.Correction is not { } correction)
            return [];
        if (!await db.Sessions.AnyAsync(s => s.AgencyId == caller.AgencyId && s.Id == correction.Session && s.LearnerId == input.Learner, stop))
            return [Problem.NotFound];
        return (await correct.CorrectAsync(db, caller, correction, stop)).Problems;
    }
}
