using TeamCircle.Core;
using TeamCircle.Core.Papers;
using TeamCircle.Core.People;
using TeamCircle.Data.Devices;

namespace TeamCircle.Data.Papers;

/// <summary>Enters a day that binds and that no other part of the record knows.</summary>
public sealed class AddBoundDate(Portal portal)
{
    public sealed record Input
    {
        public int Learner { get; init; }
        public BoundKind? Kind { get; init; }
        public LocalDate? FromDay { get; init; }
        public LocalDate? DueOn { get; init; }
        public string? RestsOn { get; init; }
        public int? RepeatMonths { get; init; }
        public string? Note { get; init; }
    }

    public sealed record Saved(int BoundDate);

    public Task<Outcome<Saved>> RunAsync(Caller caller, Guid operation, Input input, CancellationToken stop = default) => portal.WriteAsync(
        Scope.OfLearner(caller, input.Learner), Operation.Of(operation, nameof(AddBoundDate), input), db => WorkAsync(db, caller, input, stop), stop);

    private static async Task<Outcome<Saved>> WorkAsync(PortalDb db, Caller caller, Input input, CancellationToken stop)
    {
        if (!BoundDates.MayKeep(caller, input.Learner))
            return Outcome<Saved>.Refused(Problem.NotFound);
        List<Problem> problems = [.. BoundDates.Check(input.Kind, input.DueOn, input.RestsOn, input.FromDay, input.RepeatMonths, caller.Today)];
        if (input.Note?.Trim().Length > BoundDates.LongestNote)
            problems.Add(new(nameof(input.Note), $"Keep it under {BoundDates.LongestNote} letters."));
        if (problems.Count > 0)
            return Outcome<Saved>.Refused(problems);
        var row = new BoundDateRow
        {
            AgencyId = caller.AgencyId,
            LearnerId = input.Learner,
            Kind = input.Kind!.Value,
            FromDay = input.Kind == BoundKind.Trial ? input.FromDay : null,
            DueOn = input.DueOn!.Value,
            RestsOn = input.RestsOn!.Trim(),
            RepeatMonths = input.RepeatMonths,
            Note = string.IsNullOrWhiteSpace(input.Note) ? null : input.Note.Trim(),
            EnteredBy = caller.PersonId,
        };
        db.Add(row);
        await db.SaveChangesAsync(stop);
        return Outcome<Saved>.Of(new(row.Id));
    }
}
