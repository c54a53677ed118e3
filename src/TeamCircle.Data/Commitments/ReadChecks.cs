using Microsoft.EntityFrameworkCore;
using TeamCircle.Data.Devices;

namespace TeamCircle.Data.Commitments;

/// <summary>Reads what never became a row.</summary>
internal static class ReadChecks
{
    private const int MostImports = 10;

    /// <summary>The last imports that left rows out.</summary>
    public static Task<List<RefusedRows>> RefusedAsync(PortalDb db, int agency, CancellationToken stop) => db.Imports
        .Where(i => i.AgencyId == agency && i.Refused > 0).OrderByDescending(i => i.Id).Take(MostImports)
        .Select(i => new RefusedRows(i.At, i.Refused)).ToListAsync(stop);

    /// <summary>How many things that devices sent wait for a person.</summary>
    public static Task<int> SetAsideAsync(PortalDb db, int agency, CancellationToken stop) =>
        db.Operations.CountAsync(o => o.AgencyId == agency && o.State == OperationState.SetAside, stop);
}
