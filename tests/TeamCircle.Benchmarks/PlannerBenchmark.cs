using System.Diagnostics;
using System.Globalization;
using TeamCircle.Core.MakeUps;
using TeamCircle.Core.Tests.MakeUps;

namespace TeamCircle.Benchmarks;

/// <summary>Times the make-up planner on three random families, five seeds each, and holds every answer to the rules.</summary>
internal static class PlannerBenchmark
{
    private const int Seeds = 5;

    public static void Run(double seconds)
    {
        Console.WriteLine($"60 needs, 5 providers, 12 learners, 15 days, 2 workers, {seconds:0} s on two idle processors");
        Console.WriteLine("| family | seed | on the calendar | lacking | first answer | first unmet | unmet (bound), s | trips | visits | days | over | broken rules |");
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
        var answers = new List<(double At, MakeUpAnswer Answer)>();
        var watch = Stopwatch.StartNew();
        var last = MakeUpPlanner.Solve(problem, new Effort(seconds), answer => answers.Add((watch.Elapsed.TotalSeconds, answer)));
        answers.Add((watch.Elapsed.TotalSeconds, last));
        var (firstAt, first) = answers[0];
        var broken = answers.SelectMany(a => MakeUpChecker.BrokenRules(problem, a.Answer)).ToList();
        foreach (var rule in broken.Take(5))
            Console.Error.WriteLine(rule);
        var levels = Enum.GetValues<LevelName>().Select(name => Proof(name, answers));
        return string.Create(CultureInfo.InvariantCulture, $"| {family.Name} | {seed} | {problem.Busy.Count} | {problem.Needs.Sum(n => n.Minutes)} | "
            + $"{firstAt:0.00} s | {first[LevelName.Unmet].Value} | {string.Join(" | ", levels)} | {watch.Elapsed.TotalSeconds:0.0} s | {broken.Count} |");
    }

    /// <summary>The value, and when it was proven, or its bound where it was not.</summary>
    private static string Proof(LevelName name, List<(double At, MakeUpAnswer Answer)> answers)
    {
        var level = answers[^1].Answer[name];
        if (!level.IsProven)
            return string.Create(CultureInfo.InvariantCulture, $"{level.Value} (≥ {level.Bound})");
        var at = answers.First(a => a.Answer[name] == level && Enum.GetValues<LevelName>().TakeWhile(n => n != name).All(n => a.Answer[n].Value == answers[^1].Answer[n].Value)).At;
        return string.Create(CultureInfo.InvariantCulture, $"{level.Value} in {at:0.0}");
    }
}
