using Microsoft.EntityFrameworkCore;
using TeamCircle.Core;
using TeamCircle.Core.Moves;
using TeamCircle.Core.People;
using TeamCircle.Data.Devices;
using TeamCircle.Data.Learners;

namespace TeamCircle.Data.Moves;

/// <summary>Notes when a file for a receiving agency was sent, to whom and how.</summary>
public sealed class NoteSent(Portal portal)
{
    public sealed record Input
    {
        public int Learner { get; init; }
        public int File { get; init; }
        public int Version { get; init; }
        public LocalDate? SentOn { get; init; }
        public string? SentTo { get; init; }
        public string? SentHow { get; init; }
    }

    public sealed record Saved(int Learner);

    public Task<Outcome<Saved>> RunAsync(Caller caller, Guid operation, Input input, CancellationToken stop = default) =>
        portal.WritePlanAsync(caller, input.Learner, Operation.Of(operation, nameof(NoteSent), input), async db =>
        {
            if (await db.TransferFiles.SingleOrDefaultAsync(f => f.AgencyId == caller.AgencyId && f.LearnerId == input.Learner && f.Id == input.File && f.SentOn == null, stop) is not { } row)
                return Outcome<Saved>.Refused(Problem.NotFound);
            var zone = await db.Agencies.Where(a => a.Id == caller.AgencyId).Select(a => a.TimeZone).SingleAsync(stop);
            Problem[] problems = [.. MoveRules.CheckSent(input.SentOn, input.SentTo, input.SentHow, row.MadeAt.InZone(DateTimeZoneProviders.Tzdb[zone]).Date, caller.Today)];
            if (problems.Length > 0)
                return Outcome<Saved>.Refused(problems);
            db.BeganOn(row, input.Version);
            (row.SentOn, row.SentTo, row.SentHow, row.SentBy) = (input.SentOn, input.SentTo!.Trim(), input.SentHow!.Trim(), caller.PersonId);
            return Outcome<Saved>.Of(new(input.Learner));
        }, stop);
}
