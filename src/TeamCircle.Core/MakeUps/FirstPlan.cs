namespace TeamCircle.Core.MakeUps;

/// <summary>A plan found at once, without a search: the scarcest need first, on days with a way that is gone anyway, the earliest first.</summary>
internal sealed class FirstPlan
{
    private readonly Slots _slots;
    private readonly Placing _placing;

    private FirstPlan(Slots slots) => (_slots, _placing) = (slots, new(slots, []));

    public static Plan Make(Slots slots)
    {
        var first = new FirstPlan(slots);
        var byNeed = slots.All.GroupBy(s => s.Need).Select(g => (Need: g.Key, Slots: g.ToList())).ToList();
        foreach (var (need, own) in byNeed.OrderBy(n => (double)n.Slots.Sum(s => s.Most) / slots.Problem.MostSteps(slots.Problem.Needs[n.Need])))
            first.Fill(own, slots.Problem.MostSteps(slots.Problem.Needs[need]));
        return new(slots, first._placing.Visits);
    }

    private void Fill(List<Slot> open, int left)
    {
        while (left > 0 && Best(open, left) is { } best)
        {
            _placing.Visits.Add(best);
            open = [.. open.Where(s => s != best.Slot)];
            left -= best.Length;
        }
    }

    private Placed? Best(List<Slot> open, int left)
    {
        Placed? best = null;
        var bestRank = (IsNewTrip: true, Missing: int.MaxValue, Day: int.MaxValue);
        foreach (var slot in open)
        {
            if (_placing.Longest(slot, left) is not { } placed)
                continue;
            var rank = (_placing.IsNewTrip(slot), left - placed.Length, slot.Day);
            if (best is null || rank.CompareTo(bestRank) < 0)
                (best, bestRank) = (placed, rank);
        }
        return best;
    }
}
