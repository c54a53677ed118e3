using TeamCircle.Core.Calendar;

namespace TeamCircle.Data.Calendar;

/// <summary>Visits that something else called off, a time away or a closure, and that come back with it.</summary>
internal static class CalledOffVisits
{
    /// <returns>Those that could not come back, because their time was given to somebody else; they stay called off by themselves.</returns>
    public static async Task<IReadOnlyList<KeptVisit>> BringBackAsync(PortalDb db, IReadOnlyList<VisitRow> visits, CancellationToken stop)
    {
        var lost = new List<KeptVisit>();
        foreach (var visit in visits)
        {
            (visit.AwayId, visit.ClosureId) = (null, null);
            if (await IsFreeAsync(db, visit, stop))
                (visit.State, visit.CalledOff, visit.Sequence) = (VisitState.Planned, null, visit.Sequence + 1);
            else
                lost.Add(new(visit.Id, visit.OnDay, visit.State));
            await db.SaveChangesAsync(stop);
        }
        return lost;
    }

    private static async Task<bool> IsFreeAsync(PortalDb db, VisitRow visit, CancellationToken stop)
    {
        await DayLock.TakeAsync(db, visit.AgencyId, visit.OnDay, [visit.ProviderId], [visit.LearnerId], stop);
        var book = await DayBook.ReadAsync(db, await VisitSpec.OfAsync(db, visit, stop), visit.OnDay, visit.OnDay, [visit.Id], stop);
        return !book.Clashes(visit.OnDay).Any(c => c.Kind is ClashKind.PersonTwice or ClashKind.LearnerTwice or ClashKind.Travel or ClashKind.Away);
    }
}
