using TeamCircle.Core;
using TeamCircle.Core.Papers;
using TeamCircle.Core.People;
using TeamCircle.Data.Devices;

namespace TeamCircle.Data.Papers;

/// <summary>Says that a paper came back, or takes back what was said of its sending. It is sent again as a sending of its own.</summary>
public sealed class ChangeDelivery(Portal portal)
{
    public sealed record Input
    {
        public int Learner { get; init; }
        public int Delivery { get; init; }
        public int Version { get; init; }
        public LocalDate? ReturnedOn { get; init; }
        public string? ReturnedWord { get; init; }

        /// <summary>True: it did not go out as was said, for <see cref="Reason"/>.</summary>
        public bool TakeBack { get; init; }
        public string? Reason { get; init; }
    }

    public sealed record Saved(int Delivery);

    public Task<Outcome<Saved>> RunAsync(Caller caller, Guid operation, Input input, CancellationToken stop = default) => portal.WriteAsync(
        Scope.OfLearner(caller, input.Learner), Operation.Of(operation, nameof(ChangeDelivery), input), db => WorkAsync(db, caller, input, stop), stop);

    private static async Task<Outcome<Saved>> WorkAsync(PortalDb db, Caller caller, Input input, CancellationToken stop)
    {
        if (await ReadPapers.FindAsync(db, caller, input.Learner, input.Delivery, stop) is not { } row)
            return Outcome<Saved>.Refused(Problem.NotFound);
        if (!row.Live || (!input.TakeBack && row.ReturnedOn is not null))
            return Outcome<Saved>.Refused("", "That was said already.");
        Problem[] problems = input.TakeBack ? [.. BoundDates.CheckReason(input.Reason)] : [.. Deliveries.CheckReturn(row.SentOn, input.ReturnedOn, input.ReturnedWord, caller.Today)];
        if (problems.Length > 0)
            return Outcome<Saved>.Refused(problems);
        db.BeganOn(row, input.Version);
        if (input.TakeBack)
            (row.Live, row.TakenBackReason) = (false, input.Reason!.Trim());
        else
            (row.ReturnedOn, row.ReturnedWord) = (input.ReturnedOn, input.ReturnedWord!.Trim());
        return Outcome<Saved>.Of(new(row.Id));
    }
}
