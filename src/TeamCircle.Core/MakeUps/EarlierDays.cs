namespace TeamCircle.Core.MakeUps;

/// <summary>Moves single visits to earlier days where nothing gets worse, until none can move.</summary>
internal static class EarlierDays
{
    public static Plan Of(Plan plan)
    {
        var placing = new Placing(plan.Slots, plan.Visits);
        var slots = plan.Slots.All.ToLookup(s => s.Need);
        while (MovesOne(placing, slots))
        {
            // each move makes the sum of the days smaller, so that this ends
        }
        return new(plan.Slots, placing.Visits);
    }

    private static bool MovesOne(Placing placing, ILookup<int, Slot> slots)
    {
        var moved = false;
        foreach (var visit in placing.Visits.OrderByDescending(v => v.Slot.Day).ToList())
        {
            placing.Visits.Remove(visit);
            var savesTrip = placing.IsNewTrip(visit.Slot);
            var earlier = slots[visit.Slot.Need].Where(s => s.Day < visit.Slot.Day && (savesTrip || !placing.IsNewTrip(s)))
                .Select(s => placing.Longest(s, visit.Length))
                .FirstOrDefault(p => p?.Length == visit.Length);
            placing.Visits.Add(earlier ?? visit);
            moved |= earlier is not null;
        }
        return moved;
    }
}
