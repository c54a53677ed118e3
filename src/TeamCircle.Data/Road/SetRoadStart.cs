using Microsoft.EntityFrameworkCore;
using TeamCircle.Core;
using TeamCircle.Core.People;
using TeamCircle.Data.Devices;

namespace TeamCircle.Data.Road;

/// <summary>Says where one's own days on the road begin and end: at a place of the agency's list, or at the first and last visit.</summary>
public sealed class SetRoadStart(Portal portal)
{
    public sealed record Input
    {
        /// <summary>Null: at the first visit and at the last.</summary>
        public int? Place { get; init; }

        /// <summary>0 where nothing was said yet.</summary>
        public int Version { get; init; }
    }

    public sealed record Saved(int? Place);

    public async Task<Outcome<Saved>> RunAsync(Caller caller, Guid operation, Input input, CancellationToken stop = default) => caller.IsStaff
        ? await portal.WriteAsync(Scope.Of(caller), Operation.Of(operation, nameof(SetRoadStart), input), db => WorkAsync(db, caller, input, stop), stop)
        : Outcome<Saved>.Refused(Problem.NotFound);

    private static async Task<Outcome<Saved>> WorkAsync(PortalDb db, Caller caller, Input input, CancellationToken stop)
    {
        if (input.Place is { } place && !await db.Places.AnyAsync(p => p.AgencyId == caller.AgencyId && p.Id == place && p.Live, stop))
            return Outcome<Saved>.Refused(nameof(input.Place), "Choose a place of the list.");
        var row = await db.RoadStarts.SingleOrDefaultAsync(s => s.AgencyId == caller.AgencyId && s.PersonId == caller.PersonId, stop);
        if (row is null)
            db.Add(new RoadStartRow { AgencyId = caller.AgencyId, PersonId = caller.PersonId, PlaceId = input.Place });
        else
        {
            db.Touch(row, input.Version);
            row.PlaceId = input.Place;
        }
        return Outcome<Saved>.Of(new(input.Place));
    }
}
