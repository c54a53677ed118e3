namespace TeamCircle.Core.MakeUps;

/// <summary>Visits placed so far, and what still fits beside them.</summary>
internal sealed class Placing(Slots slots, IEnumerable<Placed> visits)
{
    public List<Placed> Visits { get; } = [.. visits];

    /// <summary>Whether a visit there would be the only reason to go there on that day.</summary>
    public bool IsNewTrip(Slot slot) =>
        !slots.IsDriven(slot) && !Visits.Exists(v => v.Slot.Day == slot.Day && Plan.Trip(slots, v.Slot) == Plan.Trip(slots, slot));

    /// <summary>The longest visit that still fits there, or null.</summary>
    public Placed? Longest(Slot slot, int left)
    {
        var need = slots.Need(slot);
        var sameDay = Visits.Where(v => v.Slot.Day == slot.Day).ToList();
        if (sameDay.Exists(v => slots.Need(v.Slot).Line == need.Line))
            return null;
        var mine = sameDay.Where(v => slots.Need(v.Slot).Provider == need.Provider).ToList();
        var theirs = sameDay.Where(v => need.Learner is not null && slots.Need(v.Slot).Learner == need.Learner).ToList();
        var most = Math.Min(Math.Min(slot.Most, left), slots.ProviderLeft(need.Provider, slot.Day) - mine.Sum(v => v.Length));
        if (need.Learner is { } learner)
            most = Math.Min(most, slots.LearnerLeft(learner, slot.Day) - theirs.Sum(v => v.Length));
        var pieces = slot.Gaps;
        foreach (var visit in mine)
            pieces = Without(pieces, visit.Start - slots.Travel(slot, visit.Slot), visit.End + slots.Travel(visit.Slot, slot));
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
