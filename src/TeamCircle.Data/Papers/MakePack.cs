using TeamCircle.Core;
using TeamCircle.Core.Papers;
using TeamCircle.Core.People;
using TeamCircle.Data.Commitments;
using TeamCircle.Data.Devices;

namespace TeamCircle.Data.Papers;

/// <summary>Makes the pack for a meeting: what is on record today, kept as one document.</summary>
public sealed class MakePack(Portal portal)
{
    public sealed record Input
    {
        public int Learner { get; init; }
        public LocalDate? OnDay { get; init; }
        public string? About { get; init; }

        /// <summary>The day by which the family has it; null: so many school days before as is usual.</summary>
        public LocalDate? FamilyBy { get; init; }
    }

    public sealed record Saved(int Meeting);

    public Task<Outcome<Saved>> RunAsync(Caller caller, Guid operation, Input input, CancellationToken stop = default) => portal.WriteAsync(
        Scope.OfLearner(caller, input.Learner), Operation.Of(operation, nameof(MakePack), input), db => WorkAsync(db, caller, input, stop), stop);

    private static async Task<Outcome<Saved>> WorkAsync(PortalDb db, Caller caller, Input input, CancellationToken stop)
    {
        if (!BoundDates.MayKeep(caller, input.Learner))
            return Outcome<Saved>.Refused(Problem.NotFound);
        Problem[] problems = [.. Packs.Check(input.OnDay, input.About, input.FamilyBy, caller.Today)];
        if (problems.Length > 0)
            return Outcome<Saved>.Refused(problems);
        if (await new PackFigures(db, caller, input.Learner).ReadAsync(stop) is not { } content)
            return Outcome<Saved>.Refused("", "No plan has begun yet, so there is nothing to put into a pack.");
        var calendar = (await AgencyRules.ReadAsync(db, caller.AgencyId, stop)).Calendar;
        var row = new MeetingRow
        {
            AgencyId = caller.AgencyId,
            LearnerId = input.Learner,
            OnDay = input.OnDay!.Value,
            About = input.About!.Trim(),
            FamilyBy = input.FamilyBy ?? BoundDates.Before(calendar, input.OnDay.Value, Packs.FamilyDays),
            Content = content.Write(),
            MadeBy = caller.PersonId,
        };
        db.Add(row);
        await db.SaveChangesAsync(stop);
        return Outcome<Saved>.Of(new(row.Id));
    }
}
