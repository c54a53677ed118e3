namespace TeamCircle.Core.MakeUps;

/// <summary>Visits in slots, and how good they are together.</summary>
internal sealed class Plan(Slots slots, IReadOnlyList<Placed> visits)
{
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

    /// <summary>Whether both have visits of the same needs on the same days, whatever the times.</summary>
    public bool HasDaysOf(Plan other) => visits.Select(v => v.Slot).ToHashSet().SetEquals(other.Visits.Select(v => v.Slot));

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
