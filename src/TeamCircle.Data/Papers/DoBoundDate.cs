using TeamCircle.Core;
using TeamCircle.Core.Papers;
using TeamCircle.Core.People;
using TeamCircle.Data.Devices;

namespace TeamCircle.Data.Papers;

/// <summary>Says that what was due is done. What comes round again stands from then on with its next day, counted from the day on which it was done.</summary>
public sealed class DoBoundDate(Portal portal)
{
    public sealed record Input
    {
        public int Learner { get; init; }
        public int BoundDate { get; init; }
        public int Version { get; init; }
        public LocalDate? DoneOn { get; init; }
        public string? Word { get; init; }
    }

    /// <param name="Next">When it comes round again; null for once.</param>
    public sealed record Saved(LocalDate? Next);

    public Task<Outcome<Saved>> RunAsync(Caller caller, Guid operation, Input input, CancellationToken stop = default) => portal.WriteAsync(
        Scope.OfLearner(caller, input.Learner), Operation.Of(operation, nameof(DoBoundDate), input), db => WorkAsync(db, caller, input, stop), stop);

    private static async Task<Outcome<Saved>> WorkAsync(PortalDb db, Caller caller, Input input, CancellationToken stop)
    {
        if (await ReadDates.FindAsync(db, caller, input.Learner, input.BoundDate, stop) is not { } row)
            return Outcome<Saved>.Refused(Problem.NotFound);
        if (row.DoneOn is not null || !row.Live)
            return Outcome<Saved>.Refused("", "It is not open any more.");
        Problem[] problems = [.. BoundDates.CheckDone(input.DoneOn, input.Word, caller.Today)];
        if (problems.Length > 0)
            return Outcome<Saved>.Refused(problems);
        db.BeganOn(row, input.Version);
        (row.DoneOn, row.DoneBy, row.DoneWord) = (input.DoneOn, caller.PersonId, string.IsNullOrWhiteSpace(input.Word) ? null : input.Word.Trim());
        if (row.RepeatMonths is not { } months)
            return Outcome<Saved>.Of(new((LocalDate?)null));
        var next = BoundDates.Again(input.DoneOn!.Value, months);
        db.Add(new BoundDateRow
        {
            AgencyId = row.AgencyId,
            LearnerId = row.LearnerId,
            Kind = row.Kind,
            DueOn = next,
            RestsOn = row.RestsOn,
            RepeatMonths = months,
            FollowsId = row.Id,
            EnteredBy = caller.PersonId,
        });
        return Outcome<Saved>.Of(new(next));
    }
}
