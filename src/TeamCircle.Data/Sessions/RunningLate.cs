using TeamCircle.Core;
using TeamCircle.Core.People;
using TeamCircle.Data.Calendar;
using TeamCircle.Data.Devices;

namespace TeamCircle.Data.Sessions;

/// <summary>Says that a visit of today begins later than planned. The plan stays; when it really began is said when it is logged.</summary>
public sealed class RunningLate(Portal portal)
{
    /// <summary>The most that can be said by one tap.</summary>
    public const int MostMinutes = 120;

    public sealed record Input
    {
        public Guid Visit { get; init; }
        public int Version { get; init; }

        /// <summary>Minutes after the planned start; 0: on time after all.</summary>
        public int Minutes { get; init; }
    }

    public sealed record Saved(Guid Visit, LocalTime? Expected);

    public Task<Outcome<Saved>> RunAsync(Caller caller, Guid operation, Input input, CancellationToken stop = default) =>
        portal.WriteAsync(Scope.Of(caller), Operation.Of(operation, nameof(RunningLate), input), async db =>
        {
            var found = await TodaysVisit.LockAsync(db, caller, input.Visit, input.Version, stop);
            if (found.Value is not { } visit)
                return Outcome<Saved>.Refused(found.Problems);
            if (input.Minutes is < 0 or > MostMinutes)
                return Outcome<Saved>.Refused(nameof(input.Minutes), "Say by how many minutes, at most 120.");
            visit.ExpectedStart = input.Minutes == 0 ? null : visit.StartTime.PlusMinutes(input.Minutes);
            return Outcome<Saved>.Of(new(visit.Id, visit.ExpectedStart));
        }, stop);
}
