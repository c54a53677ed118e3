using System.Data;
using Microsoft.EntityFrameworkCore;
using TeamCircle.Core.People;
using TeamCircle.Data.History;

namespace TeamCircle.Data.Devices;

/// <summary>Gives a device one picture of a routine of a learner on whose team the caller stands, and leaves a record of access.</summary>
public sealed class ReadDevicePicture(Portal portal)
{
    /// <summary>JPEG; null where there is none, or it is none of the caller's.</summary>
    public async Task<byte[]?> RunAsync(Caller caller, int picture, CancellationToken stop = default)
    {
        await using var work = await portal.OpenAsync(Scope.Of(caller), IsolationLevel.ReadCommitted, stop: stop);
        var found = await work.Db.RoutinePictures.Where(p => p.AgencyId == caller.AgencyId && p.Id == picture).Select(p => new { p.LearnerId, p.Jpeg }).SingleOrDefaultAsync(stop);
        if (found is null || !caller.IsStaff || !caller.OnTeam(found.LearnerId))
            return null;
        work.Db.Accesses.Add(new AccessRow
        {
            AgencyId = caller.AgencyId,
            PersonId = caller.PersonId,
            Address = caller.Address,
            Ground = "own visits of today and tomorrow, on a device",
            Page = "GET /device/picture/{id}",
            LearnerIds = [found.LearnerId],
        });
        await work.Db.SaveChangesAsync(stop);
        await work.CommitAsync(stop);
        return found.Jpeg;
    }
}
