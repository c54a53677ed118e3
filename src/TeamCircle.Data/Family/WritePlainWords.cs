using Microsoft.EntityFrameworkCore;
using TeamCircle.Core;
using TeamCircle.Core.Family;
using TeamCircle.Core.People;
using TeamCircle.Data.Devices;
using TeamCircle.Data.Learners;

namespace TeamCircle.Data.Family;

/// <summary>Says a goal in plain words for the family, in each language. The plan's own words stay as they are.</summary>
public sealed class WritePlainWords(Portal portal)
{
    public const int Longest = 400;

    public sealed record Input
    {
        public int Goal { get; init; }
        public int Version { get; init; }
        public string? English { get; init; }
        public string? Spanish { get; init; }
    }

    public sealed record Saved(int Goal);

    /// <param name="MayWrite">Whether the reader writes them: an owner of the goal, the case manager.</param>
    public sealed record Shown(int Goal, int LearnerId, string Learner, string Area, string Statement, Input Input, bool MayWrite);

    /// <summary>Null where the scope reaches no such goal.</summary>
    public Task<Shown?> ReadAsync(Caller caller, Scope scope, int goal, CancellationToken stop = default) => portal.ReadAsync(scope, async db =>
    {
        if (await db.Goals.SingleOrDefaultAsync(g => g.AgencyId == caller.AgencyId && g.Id == goal, stop) is not { } row)
            return null;
        var learner = await db.Learners.Where(l => l.AgencyId == caller.AgencyId && l.Id == row.LearnerId).Select(l => l.Name).SingleAsync(stop);
        return new Shown(
            row.Id, row.LearnerId, learner, row.Area, row.Statement, new() { Goal = row.Id, Version = row.Version, English = row.PlainEnglish, Spanish = row.PlainSpanish },
            await MayWriteAsync(db, caller, row, stop));
    }, stop);

    public Task<Outcome<Saved>> RunAsync(Caller caller, Guid operation, Input input, CancellationToken stop = default) => portal.WriteAsync(
        Scope.Of(caller), Operation.Of(operation, nameof(WritePlainWords), input), db => WorkAsync(db, caller, input, stop), stop);

    private static async Task<Outcome<Saved>> WorkAsync(PortalDb db, Caller caller, Input input, CancellationToken stop)
    {
        if (await db.Goals.SingleOrDefaultAsync(g => g.AgencyId == caller.AgencyId && g.Id == input.Goal, stop) is not { } row || !await MayWriteAsync(db, caller, row, stop))
            return Outcome<Saved>.Refused(Problem.NotFound);
        var typed = new Both(input.English, input.Spanish).Trimmed();
        Problem[] problems = [.. Problems(typed)];
        if (problems.Length > 0)
            return Outcome<Saved>.Refused(problems);
        db.BeganOn(row, input.Version);
        (row.PlainEnglish, row.PlainSpanish) = (typed.English, typed.Spanish);
        return Outcome<Saved>.Of(new(row.Id));
    }

    private static IEnumerable<Problem> Problems(Both typed)
    {
        if (typed.English?.Length > Longest)
            yield return new(nameof(Input.English), $"Keep it under {Longest} letters.");
        if (typed.Spanish?.Length > Longest)
            yield return new(nameof(Input.Spanish), $"Keep it under {Longest} letters.");
    }

    private static async Task<bool> MayWriteAsync(PortalDb db, Caller caller, GoalRow goal, CancellationToken stop) => SummaryRules.MayWritePlain(
        caller, goal.LearnerId, await db.GoalOwners.Where(o => o.AgencyId == caller.AgencyId && o.GoalId == goal.Id && o.FromDay <= caller.Today && o.ToDay >= caller.Today)
            .Select(o => o.PersonId).ToListAsync(stop));
}
