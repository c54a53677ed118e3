using TeamCircle.Core.MakeUps;

namespace TeamCircle.Core.Tests.MakeUps;

/// <summary>Tries every set of visits of a small problem and keeps the best. Slow and plain: it steps over days and times, and
/// leaves out only what already breaks a rule or can no longer be better.</summary>
internal sealed class ExhaustiveSearch
{
    private readonly MakeUpProblem _problem;
    private readonly List<(int Need, int Day, List<DayTime> Options)> _places = [];
    private readonly List<ProposedVisit> _visits = [];
    private int[] _best;

    private ExhaustiveSearch(MakeUpProblem problem)
    {
        _problem = problem;
        for (var need = 0; need < problem.Needs.Count; need++)
        {
            foreach (var day in problem.Days)
                _places.Add((need, day, Options(need, day)));
        }
        _best = [int.MaxValue, 0, 0, 0];
    }

    /// <summary>The least unmet minutes, then trips, visits and days.</summary>
    public static int[] LevelValues(MakeUpProblem problem)
    {
        var search = new ExhaustiveSearch(problem);
        search.Try(0);
        return search._best;
    }

    private List<DayTime> Options(int need, int day)
    {
        var grid = _problem.GridMinutes;
        return [.. from steps in Enumerable.Range(1, DayTime.MinutesOfADay / grid).Reverse()
                   from start in Enumerable.Range(0, DayTime.MinutesOfADay / grid)
                   let when = new DayTime(day, start * grid, (start + steps) * grid)
                   where steps * grid <= _problem.Needs[need].Largest && MakeUpChecker.Allows(_problem, [new(need, when)])
                   select when];
    }

    private void Try(int place)
    {
        if (!IsBetter(Values(place)))
            return;
        if (place == _places.Count)
        {
            _best = Values(place);
            return;
        }
        foreach (var when in _places[place].Options)
        {
            _visits.Add(new(_places[place].Need, when));
            if (MakeUpChecker.Allows(_problem, _visits))
                Try(place + 1);
            _visits.RemoveAt(_visits.Count - 1);
        }
        Try(place + 1);
    }

    /// <summary>What the visits so far come to, the places to come giving as much as they could at no cost.</summary>
    private int[] Values(int place)
    {
        var hoped = _places.Skip(place).Where(p => p.Options.Count > 0).ToLookup(p => p.Need, p => p.Options.Max(o => o.Minutes));
        var unmet = _problem.Needs.Select((need, i) =>
            Math.Max(0, need.Minutes - _visits.Where(v => v.Need == i).Sum(v => v.When.Minutes) - hoped[i].Sum())).Sum();
        return [unmet, .. MakeUpChecker.Costs(_problem, _visits)];
    }

    private bool IsBetter(int[] values)
    {
        for (var i = 0; i < values.Length; i++)
        {
            if (values[i] != _best[i])
                return values[i] < _best[i];
        }
        return false;
    }
}
