using Microsoft.EntityFrameworkCore;

namespace TeamCircle.Data.Quiet;

/// <summary>
/// Puts setting quiet and what leaves the portal in order: whoever sends holds the lock while the mail goes out, with all who send beside
/// it; whoever sets quiet waits for them, and those who come later see what was set.
/// </summary>
internal static class QuietLock
{
    private const int Kind = 7202613;

    public static Task<int> SetAsync(PortalDb db, int agency, CancellationToken stop) =>
        db.Database.ExecuteSqlAsync($"select pg_advisory_xact_lock({Kind}, {agency})", stop);

    public static Task<int> SendAsync(PortalDb db, int agency, CancellationToken stop) =>
        db.Database.ExecuteSqlAsync($"select pg_advisory_xact_lock_shared({Kind}, {agency})", stop);
}
