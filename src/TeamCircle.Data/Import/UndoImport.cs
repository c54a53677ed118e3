using System.Globalization;
using Microsoft.EntityFrameworkCore;
using Npgsql;
using TeamCircle.Core;
using TeamCircle.Core.People;
using TeamCircle.Data.Account;
using TeamCircle.Data.Calendar;
using TeamCircle.Data.Closing;
using TeamCircle.Data.Devices;

namespace TeamCircle.Data.Import;

/// <summary>
/// Undoes an import, whole: what it brought is removed, what it changed stands as before, and the trail keeps every such row.
/// Refused where something rests on it by now: then its rows are corrected one by one.
/// </summary>
public sealed class UndoImport(Portal portal, IDbContextFactory<AccountDb> accounts, TimeProvider clock)
{
    private static readonly TimeSpan LongestRun = TimeSpan.FromMinutes(10);

    public sealed record Input
    {
        public int Import { get; init; }
        public string? Reason { get; init; }
    }

    /// <param name="Rows">How many rows were removed or put back.</param>
    public sealed record Undone(int Rows);

    /// <summary>Refused with <see cref="Problem.NotFound"/> for anybody but an administrator, and where no such import stands.</summary>
    public Task<Outcome<Undone>> RunAsync(Caller caller, Guid operation, Input input, CancellationToken stop = default) =>
        portal.WriteSettingsAsync(caller, "an import undone", Operation.Of(operation, nameof(UndoImport), input), db => WorkAsync(db, caller, input, stop), stop);

    private async Task<Outcome<Undone>> WorkAsync(PortalDb db, Caller caller, Input input, CancellationToken stop)
    {
        if (await db.Imports.AsTracking().SingleOrDefaultAsync(i => i.AgencyId == caller.AgencyId && i.Id == input.Import && i.UndoneAt == null, stop) is not { } import)
            return Outcome<Undone>.Refused(Problem.NotFound);
        if (string.IsNullOrWhiteSpace(input.Reason))
            return Outcome<Undone>.Refused(nameof(input.Reason), "Say why it is undone.");
        if (await HasSignInsAsync(db, import, stop))
            return Outcome<Undone>.Refused("", "Some of the people whom it brought were invited since, or sign in already. Correct its rows one by one instead.");
        db.Database.SetCommandTimeout(LongestRun); // one statement for all rows
        var figures = await KeepClosedFigures.BeginAsync(db, caller.AgencyId, caller.Today, stop);
        try
        {
            var rows = await db.Database.SqlQuery<int?>($"select portal.undo_import({import.Id}) as \"Value\"").SingleAsync(stop);
            if (rows is not { } count)
                return Outcome<Undone>.Refused(Problem.NotFound);
            import.UndoneTx = await db.Database.SqlQuery<long>($"select pg_current_xact_id()::text::bigint as \"Value\"").SingleAsync(stop);
            (import.UndoneAt, import.UndoneBy, import.UndoneReason) = (Instant.FromDateTimeOffset(clock.GetUtcNow()), caller.PersonId, input.Reason.Trim());
            await db.SaveChangesAsync(stop);
            return await figures.CheckAsync(stop) is { } changed ? Outcome<Undone>.Refused(changed) : Outcome<Undone>.Of(new(count));
        }
        catch (PostgresException e) when (e.SqlState == "TC012")
        {
            return Outcome<Undone>.Refused("", $"Something was entered or changed since that rests on what it brought ({e.TableName!.Replace('_', ' ')}). Take that back first, or correct the rows one by one.");
        }
    }

    private async Task<bool> HasSignInsAsync(PortalDb db, ImportRow import, CancellationToken stop)
    {
        var keys = await db.ImportAdditions.Where(a => a.AgencyId == import.AgencyId && a.ImportId == import.Id && a.TableName == "people")
            .Select(a => a.RowKeys).ToListAsync(stop);
        int[] people = [.. keys.SelectMany(k => k).Select(k => int.Parse(k, CultureInfo.InvariantCulture))];
        if (people.Length == 0)
            return false;
        await using var account = await accounts.CreateDbContextAsync(stop);
        return await account.Memberships.AnyAsync(m => m.AgencyId == import.AgencyId && people.Contains(m.PersonId), stop)
            || await account.Invitations.AnyAsync(i => i.AgencyId == import.AgencyId && i.PersonId != null && people.Contains(i.PersonId.Value), stop);
    }
}
