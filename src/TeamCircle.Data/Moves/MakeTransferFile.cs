using Microsoft.EntityFrameworkCore;
using TeamCircle.Core;
using TeamCircle.Core.Moves;
using TeamCircle.Core.People;
using TeamCircle.Data.Devices;
using TeamCircle.Data.History;
using TeamCircle.Data.Learners;

namespace TeamCircle.Data.Moves;

/// <summary>Makes the file for the receiving agency, as all stands now. It never changes; each making is a disclosure in the record of access (34 CFR 99.32).</summary>
public sealed class MakeTransferFile(Portal portal, TimeProvider clock)
{
    public sealed record Input(int Learner, int Version);

    public sealed record Saved(int Learner, int File);

    public Task<Outcome<Saved>> RunAsync(Caller caller, Guid operation, Input input, CancellationToken stop = default) =>
        portal.WritePlanAsync(caller, input.Learner, Operation.Of(operation, nameof(MakeTransferFile), input), db => WorkAsync(db, caller, input, stop), stop);

    private async Task<Outcome<Saved>> WorkAsync(PortalDb db, Caller caller, Input input, CancellationToken stop)
    {
        if (await db.MovesOut.SingleOrDefaultAsync(m => m.AgencyId == caller.AgencyId && m.LearnerId == input.Learner, stop) is not { } row)
            return Outcome<Saved>.Refused(Problem.NotFound);
        if (row.Works is null)
            return Outcome<Saved>.Refused("", "Write first what works with this learner: a receiving team asks for nothing sooner.");
        if (row.Version != input.Version)
            return Outcome<Saved>.Refused(Refusals.ChangedMeanwhile);
        var file = new TransferFileRow
        {
            AgencyId = caller.AgencyId,
            LearnerId = input.Learner,
            MoveOutId = row.Id,
            Content = (await new TransferFacts(db, row, caller.Today).ReadAsync(stop)).Write(),
            MadeBy = caller.PersonId,
            MadeAt = Instant.FromDateTimeOffset(clock.GetUtcNow()),
        };
        db.Add(file);
        db.Add(new AccessRow
        {
            AgencyId = caller.AgencyId,
            PersonId = caller.PersonId,
            Address = caller.Address,
            Ground = $"disclosure to {row.ToWhere}: {row.GroundWords}",
            Page = Page,
            LearnerIds = [input.Learner],
        });
        await db.SaveChangesAsync(stop);
        return Outcome<Saved>.Of(new(input.Learner, file.Id));
    }

    /// <summary>What the record of access calls it.</summary>
    private const string Page = "GET /Moves/TransferFile";
}
