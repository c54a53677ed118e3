using Microsoft.EntityFrameworkCore;
using TeamCircle.Core;
using TeamCircle.Core.People;
using TeamCircle.Data.Devices;

namespace TeamCircle.Data.Routines;

/// <summary>Takes a picture off a routine's card, or puts it back.</summary>
public sealed class RemovePicture(Portal portal)
{
    /// <param name="Back">Whether it is put back.</param>
    public sealed record Input(int Routine, int Picture, bool Back);

    public sealed record Saved(int Picture);

    public Task<Outcome<Saved>> RunAsync(Caller caller, Guid operation, Input input, CancellationToken stop = default) =>
        portal.WriteRoutineAsync(caller, input.Routine, Operation.Of(operation, nameof(RemovePicture), input), (db, row) => WorkAsync(db, row, input, stop), stop);

    private static async Task<Outcome<Saved>> WorkAsync(PortalDb db, RoutineRow routine, Input input, CancellationToken stop)
    {
        var pictures = await db.RoutinePictures.IgnoreQueryFilters().Where(p => p.AgencyId == routine.AgencyId && p.RoutineId == routine.Id && (p.Live || p.Id == input.Picture))
            .ToListAsync(stop);
        if (pictures.Find(p => p.Id == input.Picture) is not { } picture)
            return Outcome<Saved>.Refused(Problem.NotFound);
        if (input.Back && !picture.Live && pictures.Count(p => p.Live) >= AddPicture.Most)
            return Outcome<Saved>.Refused("", $"A card holds {AddPicture.Most} pictures. Remove one first.");
        (picture.Live, picture.TakenBackReason) = (input.Back, input.Back ? null : "taken off the card");
        return Outcome<Saved>.Of(new(picture.Id));
    }
}
