using Microsoft.EntityFrameworkCore;
using TeamCircle.Core;
using TeamCircle.Core.People;
using TeamCircle.Core.Road;
using TeamCircle.Data.Devices;

namespace TeamCircle.Data.Calendar;

/// <summary>Says in what the agency writes distances. Those that stand are never converted, so the unit changes only while there are none.</summary>
public sealed class SetDistanceUnit(Portal portal)
{
    public sealed record Input
    {
        public DistanceUnit? Unit { get; init; }
    }

    public sealed record Saved(DistanceUnit Unit);

    public Task<Outcome<Saved>> RunAsync(Caller caller, Guid operation, Input input, CancellationToken stop = default) =>
        portal.WriteSettingsAsync(caller, "the unit of distances", Operation.Of(operation, nameof(SetDistanceUnit), input), db => WorkAsync(db, caller.AgencyId, input, stop), stop);

    private static async Task<Outcome<Saved>> WorkAsync(PortalDb db, int agency, Input input, CancellationToken stop)
    {
        if (input.Unit is not { } unit || !Enum.IsDefined(unit))
            return Outcome<Saved>.Refused(nameof(input.Unit), "Choose miles or kilometres.");
        var row = await db.Agencies.SingleAsync(a => a.Id == agency, stop);
        if (row.DistanceUnit != unit && await db.TravelTimes.AnyAsync(t => t.AgencyId == agency && t.Tenths != null, stop))
            return Outcome<Saved>.Refused(nameof(input.Unit), "Distances are entered already, and they are not converted. Empty them first.");
        row.DistanceUnit = unit;
        return Outcome<Saved>.Of(new(unit));
    }
}

/// <summary>What an administrator sets about places and the ways between them.</summary>
public sealed record PlaceTurns(SavePlace Save, SetTravelTimes Travel, SetDistanceUnit Unit);
