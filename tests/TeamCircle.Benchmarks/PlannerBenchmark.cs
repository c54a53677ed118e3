using System.Diagnostics;
using System.Globalization;
using TeamCircle.Core.MakeUps;
using TeamCircle.Core.Tests.MakeUps;

namespace TeamCircle.Benchmarks;

/// <summary>Times the make-up planner on three random families, five seeds each, and holds every answer to the rules.</summary>
internal static class PlannerBenchmark
{
    private const int Seeds = 5;

    /// <param name="Wall">Seconds by the clock since the search began.</param>
    /// <param name="Processor">Seconds of processor time, all threads together: what load does not change.</param>
    private readonly record struct Moment(double Wall, double Processor, MakeUpAnswer Answer);

    public static void Run(double seconds)
    {
        Console.WriteLine($"60 needs, 5 providers, 12 learners, 15 days, 2 workers, {seconds:0} s on two idle processors");
        Console.WriteLine("Proof: value, seconds by the clock (seconds of processor time)");
        Console.WriteLine("| family | seed | on the calendar | lacking | first answer | first unmet | unmet | trips | visits | days | in all | broken rules |");
        Console.WriteLine("|---|---|---|---|---|---|---|---|---|---|---|---|");
        MakeUpPlanner.Solve(PlannerFamily.All[0].Make(0), new Effort(1)); // the first use loads the solver
        foreach (var family in PlannerFamily.All)
        {
            for (var seed = 1; seed <= Seeds; seed++)
                Console.WriteLine(Line(family, seed, seconds));
        }
    }

    private static string Line(PlannerFamily family, int seed, double seconds)
    {
        var problem = family.Make(seed);
        var moments = new List<Moment>();
        var (watch, processor) = (Stopwatch.StartNew(), Processor());
        void Note(MakeUpAnswer answer) => moments.Add(new(watch.Elapsed.TotalSeconds, Processor() - processor, answer));
        Note(MakeUpPlanner.Solve(problem, new Effort(seconds), Note));
        var broken = moments.SelectMany(m => MakeUpChecker.BrokenRules(problem, m.Answer)).ToList();
        foreach (var rule in broken.Take(5))
            Console.Error.WriteLine(rule);
        var (first, last) = (moments[0], moments[^1]);
        var levels = Enum.GetValues<LevelName>().Select(name => Proof(name, moments));
        return string.Create(CultureInfo.InvariantCulture, $"| {family.Name} | {seed} | {problem.Busy.Count} | {problem.Needs.Sum(n => n.Minutes)} | "
            + $"{first.Wall:0.00} | {first.Answer[LevelName.Unmet].Value} | {string.Join(" | ", levels)} | {last.Wall:0.0} ({last.Processor:0.0}) | {broken.Count} |");
    }

    /// <summary>The value and when it was proven; or the value and its bound.</summary>
    private static string Proof(LevelName name, List<Moment> moments)
    {
        var level = moments[^1].Answer[name];
        if (!level.IsProven)
            return string.Create(CultureInfo.InvariantCulture, $"{level.Value} ≥ {level.Bound}");
        var before = Enum.GetValues<LevelName>().TakeWhile(n => n != name).ToList();
        var at = moments.First(m => m.Answer[name] == level && before.TrueForAll(n => m.Answer[n].Value == moments[^1].Answer[n].Value));
        return string.Create(CultureInfo.InvariantCulture, $"{level.Value}, {at.Wall:0.0} ({at.Processor:0.0})");
    }

    private static double Processor() => Process.GetCurrentProcess().TotalProcessorTime.TotalSeconds;
}
