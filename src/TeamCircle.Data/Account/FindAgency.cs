using Microsoft.EntityFrameworkCore;

namespace TeamCircle.Data.Account;

/// <summary>Finds an agency by its code, before anybody is signed in.</summary>
public sealed class FindAgency(Portal portal)
{
    /// <param name="code">In any case.</param>
    /// <returns>Null where there is none.</returns>
    public Task<int?> RunAsync(string code, CancellationToken stop) => portal.ReadAsync(
        new Scope(Wall.Job, 0, 0, [], true, "finding an agency"),
        db => db.Database.SqlQuery<int?>($"select portal.agency_id_of({code}) as \"Value\"").SingleAsync(stop), stop);
}
