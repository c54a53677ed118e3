using System.Globalization;
using Google.OrTools.Sat;

namespace TeamCircle.Core.MakeUps;

/// <summary>How long a search may last.</summary>
/// <param name="Seconds">On two idle processors, about; counted by the work that the solver does, so that load makes it last longer and
/// changes no answer.</param>
public readonly record struct Effort(double Seconds)
{
    // measured: 2.0 to 2.6 s on two processors for a unit of the solver's own count (docs/performance.md)
    internal double Work => Seconds / 2.2;
}

/// <summary>Looks for make-up visits (docs/rules.md, part 10). It proposes; it never books.</summary>
/// <remarks>The same problem and effort give the same answer. A search can't be stopped from within: stopping the solver ended the whole
/// process now and then, by a check of its own. Who wants to stop one runs it in a process of its own and ends that; each better proposal
/// was told before, and <see cref="Explain"/> gives the reasons.</remarks>
public sealed class MakeUpPlanner
{
    /// <summary>The most proposals.</summary>
    public const int Most = 3;

    private readonly Slots _slots;
    private readonly Effort _effort;
    private readonly Action<MakeUpAnswer>? _progress;
    private readonly Lazy<PlannerModel> _model;
    private readonly int[] _bounds;
    private double _spent;
    private Plan _best;

    private MakeUpPlanner(MakeUpProblem problem, Effort effort, Action<MakeUpAnswer>? progress)
    {
        (_slots, _effort, _progress) = (new Slots(problem), effort, progress);
        _model = new(() => new PlannerModel(_slots));
        _best = EarlierDays.Of(FirstPlan.Make(_slots));
        _bounds = [WhyUnmet.LeastUnmet(_slots), 0, 0, 0];
    }

    /// <summary>A proposal found at once, without a search.</summary>
    /// <exception cref="ArgumentException">The travel table lacks a way between two places of one provider.</exception>
    public static MakeUpAnswer First(MakeUpProblem problem) => new MakeUpPlanner(problem, default, null).Now();

    /// <summary>A proposal for that problem, from a search that did not end, with the reasons why something stays unmet.</summary>
    public static MakeUpAnswer Explain(MakeUpProblem problem, MakeUpAnswer proposal)
    {
        var plan = Plan.Of(new Slots(problem), proposal);
        return plan.Answer([.. proposal.Levels.Select(l => l.Bound)], need => WhyUnmet.Of(plan, need));
    }

    /// <summary>Whether one visit on its own breaks no rule beside what stands on the calendar.</summary>
    /// <inheritdoc cref="First"/>
    public static bool Allows(MakeUpProblem problem, ProposedVisit visit)
    {
        var (grid, when) = (problem.GridMinutes, visit.When);
        var slot = new Slots(problem with { Needs = [problem.Needs[visit.Need]] }).All.SingleOrDefault(s => problem.Days[s.Day] == when.Day);
        return slot is not null && when.Start % grid == 0 && when.Minutes % grid == 0
            && when.Minutes / grid >= slot.Least && when.Minutes / grid <= slot.Most
            && slot.Gaps.Any(g => g.Start * grid <= when.Start && when.End <= g.End * grid);
    }

    /// <summary>The best proposal that the effort finds.</summary>
    /// <param name="progress">Called with each better proposal, the first at once; from other threads, one call after the other.</param>
    /// <exception cref="ArgumentException">The travel table lacks a way between two places of one provider.</exception>
    public static MakeUpAnswer Solve(MakeUpProblem problem, Effort effort, Action<MakeUpAnswer>? progress = null) =>
        Propose(problem, effort, 1, progress)[0];

    /// <summary>Up to three proposals, each as good as the first in unmet minutes, trips and visits, with as few days in common as can be.</summary>
    /// <inheritdoc cref="Solve"/>
    public static IReadOnlyList<MakeUpAnswer> Propose(MakeUpProblem problem, Effort effort, Action<MakeUpAnswer>? progress = null) =>
        Propose(problem, effort, Most, progress);

    private static List<MakeUpAnswer> Propose(MakeUpProblem problem, Effort effort, int most, Action<MakeUpAnswer>? progress)
    {
        var planner = new MakeUpPlanner(problem, effort, progress);
        planner.SolveLevels();
        return [planner.WithReasons(planner._best), .. planner.Others(most - 1)];
    }

    private void SolveLevels()
    {
        _progress?.Invoke(Now());
        foreach (var level in Enum.GetValues<LevelName>())
        {
            if (level == LevelName.Days)
                Tell(EarlierDays.Of(_best));
            if (_best.Value(level) > _bounds[(int)level])
                Improve(level);
            if (level != LevelName.Days && _slots.All.Count > 0)
                _model.Value.Keep(level, _best.Value(level));
            if (level == LevelName.Unmet)
                RaiseBoundOfVisits();
        }
    }

    private void Improve(LevelName level)
    {
        _model.Value.Minimize(level);
        var (found, bound) = Run(level == LevelName.Days ? 0.2 : 0.5, Tell); // earlier days are worth less waiting than the rest
        Take(found);
        _bounds[(int)level] = Math.Clamp(bound, _bounds[(int)level], _best.Value(level));
        _progress?.Invoke(Now());
    }

    /// <summary>Runs the solver from the best plan on.</summary>
    /// <param name="share">How much of the effort that is left it may take.</param>
    /// <returns>The plan that it ends with, if any, and the bound that it shows.</returns>
    private (Plan? Found, int Bound) Run(double share, Action<Plan>? tell)
    {
        using var solver = new CpSolver
        {
            StringParameters = string.Create(CultureInfo.InvariantCulture, $"""
                num_workers:2 interleave_search:true random_seed:1
                max_deterministic_time:{Math.Max(0, _effort.Work - _spent) * share:0.####}
                max_presolve_iterations:1 cp_model_probing_level:0 symmetry_level:0
                use_dynamic_precedence_in_disjunctive:true use_strong_propagation_in_disjunctive:true
                """),
        };
        using var watch = new Watch(this, tell);
        var status = _model.Value.Solve(solver, _best, watch);
        _spent += solver.Response?.DeterministicTime ?? 0;
        return status is CpSolverStatus.Optimal or CpSolverStatus.Feasible
            ? (_model.Value.Read(solver.Value), (int)Math.Ceiling(solver.BestObjectiveBound - 1e-6))
            : (null, 0);
    }

    private void Tell(Plan found)
    {
        if (Take(found))
            _progress?.Invoke(Now());
    }

    /// <summary>The solver's own best may be worse than what it started from, where its effort ended early.</summary>
    private bool Take(Plan? found)
    {
        if (found is null || !found.IsBetterThan(_best))
            return false;
        _best = found;
        return true;
    }

    /// <summary>Where nothing is unmet, each need has at least as many visits as its longest ones make necessary.</summary>
    private void RaiseBoundOfVisits()
    {
        if (_best.Value(LevelName.Unmet) == 0)
            _bounds[(int)LevelName.Visits] = _slots.All.GroupBy(s => s.Need).Sum(own => PlannerModel.FewestVisits(_slots, own));
    }

    private IEnumerable<MakeUpAnswer> Others(int most)
    {
        var plans = new List<Plan> { _best };
        while (plans.Count <= most && _best.Visits.Count > 0)
        {
            _model.Value.AvoidDaysOf(plans);
            if (Run(0.5, null).Found is not { } found || plans.Exists(found.HasDaysOf))
                yield break;
            plans.Add(found);
            yield return WithReasons(found);
        }
    }

    private MakeUpAnswer Now() => _best.OldestFirst().Answer(_bounds, _ => UnmetReason.SearchEnded);

    private MakeUpAnswer WithReasons(Plan plan)
    {
        var ordered = plan.OldestFirst();
        return ordered.Answer(_bounds, need => WhyUnmet.Of(ordered, need));
    }

    /// <summary>Tells of each plan that the solver finds on its way.</summary>
    private sealed class Watch(MakeUpPlanner planner, Action<Plan>? tell) : CpSolverSolutionCallback
    {
        public override void OnSolutionCallback() => tell?.Invoke(planner._model.Value.Read(Value));
    }
}
