namespace TeamCircle.Core.MakeUps;

/// <summary>A plan found at once, without a search: the scarcest need first, on days with a way that is gone anyway, the earliest first.</summary>
internal sealed class FirstPlan
{
    private readonly Slots _slots;
    private readonly List<Placed> _visits = [];
    private readonly HashSet<(string, int, string)> _trips = [];

    private FirstPlan(Slots slots) => _slots = slots;

    public static Plan Make(Slots slots)
    {
        var first = new FirstPlan(slots);
        var byNeed = slots.All.GroupBy(s => s.Need).Select(g => (Need: g.Key, Slots: g.ToList())).ToList();
        foreach (var (need, own) in byNeed.OrderBy(n => (double)n.Slots.Sum(s => s.Most) / slots.Problem.MostSteps(slots.Problem.Needs[n.Need])))
            first.Fill(own, slots.Problem.MostSteps(slots.Problem.Needs[need]));
        return new(slots, first._visits);
    }

    private void Fill(List<Slot> open, int left)
    {
        while (left > 0 && Best(open, left) is { } best)
        {
            _visits.Add(best);
            _trips.Add(Plan.Trip(_slots, best.Slot));
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
            if (Place(slot, left) is not { } placed)
                continue;
            var isNewTrip = !_slots.IsDriven(slot) && !_trips.Contains(Plan.Trip(_slots, slot));
            var rank = (isNewTrip, left - placed.Length, slot.Day);
            if (best is null || rank.CompareTo(bestRank) < 0)
                (best, bestRank) = (placed, rank);
        }
        return best;
    }

    /// <summary>The longest visit that still fits there, or null.</summary>
    private Placed? Place(Slot slot, int left)
    {
        var need = _slots.Need(slot);
        var sameDay = _visits.Where(v => v.Slot.Day == slot.Day).ToList();
        if (sameDay.Exists(v => _slots.Need(v.Slot).Line == need.Line))
            return null;
        var mine = sameDay.Where(v => _slots.Need(v.Slot).Provider == need.Provider).ToList();
        var theirs = sameDay.Where(v => need.Learner is not null && _slots.Need(v.Slot).Learner == need.Learner).ToList();
        var most = Math.Min(Math.Min(slot.Most, left), _slots.ProviderLeft(need.Provider, slot.Day) - mine.Sum(v => v.Length));
        if (need.Learner is { } learner)
            most = Math.Min(most, _slots.LearnerLeft(learner, slot.Day) - theirs.Sum(v => v.Length));
        var pieces = slot.Gaps;
        foreach (var visit in mine)
            pieces = Without(pieces, visit.Start - _slots.Travel(slot, visit.Slot), visit.End + _slots.Travel(visit.Slot, slot));
        foreach (var visit in theirs)
            pieces = Without(pieces, visit.Start, visit.End);
        if (most < slot.Least || pieces.Count == 0)
            return null;
        var widest = pieces.MaxBy(p => Math.Min(p.Length, most));
        var length = LeavingEnough(Math.Min(widest.Length, most), left, slot.Least);
        return length >= slot.Least ? new(slot, widest.Start, length) : null;
    }

    /// <summary>Shortens a visit where what it leaves would be too little for another one.</summary>
    private static int LeavingEnough(int length, int left, int least) =>
        left - length > 0 && left - length < least && left - least >= least ? left - least : length;

    private static List<Gap> Without(IReadOnlyList<Gap> gaps, int start, int end)
    {
        var rest = new List<Gap>();
        foreach (var gap in gaps)
        {
            if (end <= gap.Start || start >= gap.End)
                rest.Add(gap);
            else
                rest.AddRange(new[] { new Gap(gap.Start, start), new Gap(end, gap.End) }.Where(g => g.Length > 0));
        }
        return rest;
    }
}
