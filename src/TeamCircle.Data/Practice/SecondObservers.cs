using Microsoft.EntityFrameworkCore;
using TeamCircle.Core;
using TeamCircle.Core.Practice;

namespace TeamCircle.Data.Practice;

/// <summary>Brings a practice together with what a second observer scored of it, whichever of the two arrives first.</summary>
/// <remarks>Both run under one lock, so that two that arrive at the same moment do not miss each other: the second of them sees the first.</remarks>
internal static class SecondObservers
{
    /// <summary>Gives a second observer's row the practice that it names; without it, it waits on record until that one arrives.</summary>
    /// <returns>Why it can't be a second observer's.</returns>
    public static async Task<IReadOnlyList<Problem>> NameAsync(PortalDb db, PracticeRow second, PracticeRecord record, CancellationToken stop)
    {
        second.ObservesCode = record.Observes is { } id ? ObserverCode.Of(id) : ObserverCode.Read(record.ObservesCode);
        if (second.ObservesCode is not { } code)
            return [];
        await LockAsync(db, second, code, stop);
        var firsts = await Near(db, second).Where(p => p.ObservesCode == null).Select(p => new { p.Id, p.ProviderId }).ToListAsync(stop);
        var first = firsts.Find(p => record.Observes is { } named ? p.Id == named : ObserverCode.Of(p.Id) == code);
        if (first is null)
            return record.Observes is null ? [] : [new("Observes", "The practice that it scores a second time is not on record for this routine.")];
        second.Observes = first.Id;
        if (first.ProviderId == second.ProviderId)
            return [new("Observes", "A second observer is somebody else than the person who practised.")];
        return await db.Practices.AnyAsync(p => p.AgencyId == second.AgencyId && p.Observes == first.Id && p.ProviderId == second.ProviderId && p.Live, stop)
            ? [new("Observes", "This person has scored that practice already.")]
            : [];
    }

    /// <summary>Those that waited for this practice find it.</summary>
    public static async Task FindAsync(PortalDb db, PracticeRow first, CancellationToken stop)
    {
        var code = ObserverCode.Of(first.Id);
        await LockAsync(db, first, code, stop);
        var waiting = await Near(db, first).Where(p => p.ObservesCode == code && p.Observes == null && p.ProviderId != first.ProviderId).ToListAsync(stop);
        foreach (var second in waiting)
            second.Observes = first.Id;
    }

    private static IQueryable<PracticeRow> Near(PortalDb db, PracticeRow practice)
    {
        var (from, to) = (practice.StartedAt - ObserverCode.Holds, practice.StartedAt + ObserverCode.Holds);
        return db.Practices.Where(p => p.AgencyId == practice.AgencyId && p.RoutineId == practice.RoutineId && p.Live && p.StartedAt >= from && p.StartedAt <= to);
    }

    private static Task<int> LockAsync(PortalDb db, PracticeRow practice, string code, CancellationToken stop) =>
        db.Database.ExecuteSqlAsync($"select pg_advisory_xact_lock(hashtextextended({$"{practice.AgencyId}/observed/{practice.RoutineId}/{code}"}, 0))", stop);
}
