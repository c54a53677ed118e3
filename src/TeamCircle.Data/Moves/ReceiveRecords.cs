using Microsoft.EntityFrameworkCore;
using TeamCircle.Core;
using TeamCircle.Core.People;
using TeamCircle.Data.Devices;
using TeamCircle.Data.Learners;

namespace TeamCircle.Data.Moves;

/// <summary>Notes that records which were asked for have come.</summary>
public sealed class ReceiveRecords(Portal portal)
{
    public sealed record Input
    {
        public int Learner { get; init; }
        public int Row { get; init; }
        public int Version { get; init; }
        public LocalDate? ReceivedOn { get; init; }
    }

    public sealed record Saved(int Learner);

    public Task<Outcome<Saved>> RunAsync(Caller caller, Guid operation, Input input, CancellationToken stop = default) =>
        portal.WritePlanAsync(caller, input.Learner, Operation.Of(operation, nameof(ReceiveRecords), input), async db =>
        {
            if (await db.AskedRecords.SingleOrDefaultAsync(a => a.AgencyId == caller.AgencyId && a.LearnerId == input.Learner && a.Id == input.Row, stop) is not { } row)
                return Outcome<Saved>.Refused(Problem.NotFound);
            if (input.ReceivedOn is not { } day || day < row.AskedOn || day > caller.Today)
                return Outcome<Saved>.Refused("ReceivedOn", "Give the day on which they came, between the asking and today.");
            db.BeganOn(row, input.Version);
            row.ReceivedOn = day;
            return Outcome<Saved>.Of(new(input.Learner));
        }, stop);
}
