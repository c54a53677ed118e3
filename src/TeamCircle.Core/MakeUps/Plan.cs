namespace TeamCircle.Core.MakeUps;

/// <summary>Visits in slots, and how good they are together.</summary>
internal sealed class Plan(Slots slots, IReadOnlyList<Placed> visits)
{
    /// <summary>The proposal as a plan.</summary>
    public static Plan Of(Slots slots, MakeUpAnswer proposal)
    {
        var (grid, days) = (slots.Problem.GridMinutes, slots.Problem.Days);
        var slotOn = slots.All.ToDictionary(s => (s.Need, days[s.Day]));
        return new(slots, [.. proposal.Visits.Select(v => new Placed(slotOn[(v.Need, v.When.Day)], v.When.Start / grid, v.When.Minutes / grid))]);
    }

    public Slots Slots => slots;

    public IReadOnlyList<Placed> Visits => visits;

    public int Value(LevelName name) => name switch
    {
        LevelName.Unmet => Enumerable.Range(0, slots.Problem.Needs.Count).Sum(Unmet),
        LevelName.ExtraTrips => visits.Where(v => !slots.IsDriven(v.Slot)).Select(v => Trip(slots, v.Slot)).Distinct().Count(),
        LevelName.Visits => visits.Count,
        _ => visits.Sum(v => v.Slot.Day),
    };

    /// <summary>Minutes of a need that these visits do not bring.</summary>
    public int Unmet(int need) =>
        Math.Max(0, slots.Problem.Needs[need].Minutes - (slots.Problem.GridMinutes * visits.Where(v => v.Slot.Need == need).Sum(v => v.Length)));

    /// <summary>Whether it is better in the first level in which both differ.</summary>
    public bool IsBetterThan(Plan other)
    {
        foreach (var level in Enum.GetValues<LevelName>())
        {
            if (Value(level) != other.Value(level))
                return Value(level) < other.Value(level);
        }
        return false;
    }

    /// <summary>Whether both have visits of the same services on the same days, whatever the times and windows.</summary>
    public bool HasDaysOf(Plan other) => LineDays().SetEquals(other.LineDays());

    /// <summary>The services with the days on which they have a visit.</summary>
    public HashSet<(string Line, int Day)> LineDays() => [.. visits.Select(v => (slots.Need(v.Slot).Line, v.Slot.Day))];

    /// <summary>The same visits, but of needs that differ in their window alone the oldest gets the earliest ones: which one does is all the
    /// same to the rules, and not to people.</summary>
    public Plan OldestFirst()
    {
        var needs = slots.Problem.Needs;
        var slotOn = slots.All.ToDictionary(s => (s.Need, s.Day));
        var ordered = new List<Placed>();
        foreach (var alike in Enumerable.Range(0, needs.Count).GroupBy(n => needs[n] with { Window = 0 }))
        {
            var oldest = alike.OrderBy(n => needs[n].Window).ToList();
            var own = oldest.Select(n => visits.Where(v => v.Slot.Need == n).ToList()).Where(v => v.Count > 0).OrderBy(v => v.Min(p => p.Slot.Day)).ToList();
            var moved = own.SelectMany((list, i) => list.Select(v => (Visit: v, Slot: slotOn.GetValueOrDefault((oldest[i], v.Slot.Day))))).ToList();
            // a day that somebody refused for one window has no slot there: then they stay as they are
            ordered.AddRange(moved.Exists(m => m.Slot is null) ? own.SelectMany(list => list) : moved.Select(m => m.Visit with { Slot = m.Slot! }));
        }
        return new(slots, ordered);
    }

    /// <summary>What two visits share that are one trip.</summary>
    public static (string Provider, int Day, string Place) Trip(Slots slots, Slot slot) =>
        (slots.Need(slot).Provider, slot.Day, slots.Need(slot).Place);

    public MakeUpAnswer Answer(IReadOnlyList<int> bounds, Func<int, UnmetReason> because) => new(
        [.. visits.Select(Proposed).OrderBy(v => v.When.Day).ThenBy(v => v.When.Start).ThenBy(v => v.Need)],
        [.. Enumerable.Range(0, slots.Problem.Needs.Count).Where(n => Unmet(n) > 0).Select(n => new UnmetNeed(n, Unmet(n), because(n)))],
        [.. Enum.GetValues<LevelName>().Select((name, i) => new Level(name, Value(name), Math.Min(Value(name), bounds[i])))]);

    private ProposedVisit Proposed(Placed visit)
    {
        var grid = slots.Problem.GridMinutes;
        return new(visit.Slot.Need, new(slots.Problem.Days[visit.Slot.Day], visit.Start * grid, visit.End * grid));
    }
}
