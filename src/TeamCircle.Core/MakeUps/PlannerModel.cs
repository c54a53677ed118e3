using Google.OrTools.Sat;

namespace TeamCircle.Core.MakeUps;

/// <summary>The rules of a plan as a constraint model, solved for one level after the other.</summary>
internal sealed class PlannerModel
{
    private readonly Slots _slots;
    private readonly CpModel _model = new();
    private readonly List<SlotVariables> _visits;
    private readonly List<(SlotVariables First, SlotVariables Second, BoolVar FirstComesFirst)> _orders = [];
    private readonly Dictionary<(string, int, string), BoolVar> _trips = [];
    private readonly IntVar[] _unmet;

    public PlannerModel(Slots slots)
    {
        _slots = slots;
        _visits = [.. slots.All.Select(slot => new SlotVariables(_model, slot))];
        _unmet = [.. slots.Problem.Needs.Select((need, i) => _model.NewIntVar(0, need.Minutes, $"unmet{i}"))];
        LimitNeeds();
        LimitDays(v => _slots.Need(v.Slot).Provider, slots.ProviderLeft);
        LimitDays(v => _slots.Need(v.Slot).Learner, slots.LearnerLeft);
        AllowTravel();
        CountTrips();
    }

    /// <summary>Keeps a level at a value, or better.</summary>
    public void Keep(LevelName level, int value)
    {
        _model.Add(Sum(level) <= value);
        if (level == LevelName.Unmet && value == 0)
            AskForEnoughVisits();
    }

    /// <summary>What is looked for next is least in a level.</summary>
    public void Minimize(LevelName level) => _model.Minimize(Sum(level));

    /// <summary>What is looked for next shares as few days as can be with other plans.</summary>
    public void AvoidDaysOf(IEnumerable<Plan> others)
    {
        var taken = others.SelectMany(p => p.LineDays()).ToHashSet();
        _model.Minimize(LinearExpr.Sum(_visits.Where(v => taken.Contains((_slots.Need(v.Slot).Line, v.Slot.Day))).Select(v => v.On)));
    }

    public CpSolverStatus Solve(CpSolver solver, Plan hint, CpSolverSolutionCallback callback)
    {
        Hint(hint);
        return solver.Solve(_model, callback);
    }

    public Plan Read(Func<IntVar, long> value) => new(_slots, [.. _visits
        .Where(v => value(v.On) != 0)
        .Select(v => new Placed(v.Slot, (int)value(v.Start), (int)value(v.Length)))]);

    private LinearExpr Sum(LevelName level) => level switch
    {
        LevelName.Unmet => LinearExpr.Sum(_unmet),
        LevelName.ExtraTrips => LinearExpr.Sum(_trips.Values),
        LevelName.Visits => LinearExpr.Sum(_visits.Select(v => v.On)),
        _ => LinearExpr.WeightedSum(_visits.Select(v => v.On), _visits.Select(v => v.Slot.Day)),
    };

    private void LimitNeeds()
    {
        var problem = _slots.Problem;
        foreach (var own in _visits.GroupBy(v => v.Slot.Need))
        {
            var given = LinearExpr.Sum(own.Select(v => v.Length));
            _model.Add(given <= problem.MostSteps(problem.Needs[own.Key]));
            _model.Add((given * problem.GridMinutes) + _unmet[own.Key] >= problem.Needs[own.Key].Minutes);
        }
        foreach (var without in Enumerable.Range(0, problem.Needs.Count).Except(_visits.Select(v => v.Slot.Need)))
            _model.Add(_unmet[without] == problem.Needs[without].Minutes);
        foreach (var sameDay in _visits.GroupBy(v => (_slots.Need(v.Slot).Line, v.Slot.Day)).Where(g => g.Count() > 1))
            _model.AddAtMostOne(sameDay.Select(v => v.On));
    }

    /// <summary>One person is in one place at a time, and has no more than a day holds.</summary>
    private void LimitDays(Func<SlotVariables, string?> who, Func<string, int, int> left)
    {
        foreach (var day in _visits.Where(v => who(v) is not null).GroupBy(v => (Who: who(v)!, v.Slot.Day)))
        {
            if (day.Count() > 1)
                _model.AddNoOverlap(day.Select(v => v.Interval));
            var limit = left(day.Key.Who, day.Key.Day);
            if (day.Sum(v => v.Slot.Most) > limit)
                _model.Add(LinearExpr.Sum(day.Select(v => v.Length)) <= limit);
        }
    }

    private void AllowTravel()
    {
        foreach (var day in _visits.GroupBy(v => (_slots.Need(v.Slot).Provider, v.Slot.Day)))
        {
            var visits = day.ToList();
            for (var i = 0; i < visits.Count; i++)
            {
                foreach (var other in visits.Skip(i + 1).Where(o => _slots.Need(o.Slot).Place != _slots.Need(visits[i].Slot).Place))
                    AllowTravel(visits[i], other);
            }
        }
    }

    /// <summary>What the gaps already decide needs no order to choose.</summary>
    private void AllowTravel(SlotVariables one, SlotVariables other)
    {
        var (there, back) = (_slots.Travel(one.Slot, other.Slot), _slots.Travel(other.Slot, one.Slot));
        if (one.Slot.LastEnd + there <= other.Slot.FirstStart || other.Slot.LastEnd + back <= one.Slot.FirstStart)
            return;
        var canBeFirst = one.Slot.FirstStart + one.Slot.Least + there <= other.Slot.LastStart;
        var canBeSecond = other.Slot.FirstStart + other.Slot.Least + back <= one.Slot.LastStart;
        if (!canBeFirst && !canBeSecond)
            _model.AddBoolOr([one.On.Not(), other.On.Not()]);
        else if (!canBeSecond)
            _model.Add(other.Start >= one.End + there).OnlyEnforceIf([one.On, other.On]);
        else if (!canBeFirst)
            _model.Add(one.Start >= other.End + back).OnlyEnforceIf([one.On, other.On]);
        else
            ChooseOrder(one, other, there, back);
    }

    private void ChooseOrder(SlotVariables one, SlotVariables other, int there, int back)
    {
        var first = _model.NewBoolVar("");
        _model.Add(other.Start >= one.End + there).OnlyEnforceIf([one.On, other.On, first]);
        _model.Add(one.Start >= other.End + back).OnlyEnforceIf([one.On, other.On, first.Not()]);
        _orders.Add((one, other, first));
    }

    private void CountTrips()
    {
        foreach (var trip in _visits.Where(v => !_slots.IsDriven(v.Slot)).GroupBy(v => Plan.Trip(_slots, v.Slot)))
        {
            var driven = _model.NewBoolVar("");
            foreach (var visit in trip)
                _model.AddImplication(visit.On, driven);
            _trips.Add(trip.Key, driven);
        }
    }

    /// <summary>The fewest visits of one need where nothing of it stays unmet.</summary>
    public static int FewestVisits(Slots slots, IGrouping<int, Slot> own)
    {
        var (lacking, count) = (slots.Problem.StepsUp(slots.Problem.Needs[own.Key].Minutes), 0);
        foreach (var most in own.Select(s => s.Most).OrderDescending().TakeWhile(_ => lacking > 0))
            (lacking, count) = (lacking - most, count + 1);
        return count;
    }

    /// <summary>Follows from nothing being unmet, but only after rounding, which the solver does not see by itself.</summary>
    private void AskForEnoughVisits()
    {
        foreach (var own in _slots.All.GroupBy(s => s.Need))
            _model.Add(LinearExpr.Sum(_visits.Where(v => v.Slot.Need == own.Key).Select(v => v.On)) >= FewestVisits(_slots, own));
    }

    private void Hint(Plan plan)
    {
        var placed = plan.Visits.ToDictionary(v => v.Slot);
        _model.ClearHints();
        foreach (var visit in _visits)
            visit.Hint(_model, placed.TryGetValue(visit.Slot, out var found) ? found : null);
        foreach (var (first, second, literal) in _orders)
            _model.AddHint(literal, placed.TryGetValue(first.Slot, out var one) && placed.TryGetValue(second.Slot, out var two) && one.Start < two.Start);
        var trips = plan.Visits.Select(v => Plan.Trip(_slots, v.Slot)).ToHashSet();
        foreach (var (trip, driven) in _trips)
            _model.AddHint(driven, trips.Contains(trip));
        for (var need = 0; need < _unmet.Length; need++)
            _model.AddHint(_unmet[need], plan.Unmet(need));
    }
}
