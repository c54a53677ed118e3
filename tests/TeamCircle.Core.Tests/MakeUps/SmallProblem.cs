using TeamCircle.Core.MakeUps;

namespace TeamCircle.Core.Tests.MakeUps;

/// <summary>Problems of at most three needs and three days, small enough to try everything.</summary>
internal static class SmallProblem
{
    private const int Hour = 60;

    public static MakeUpProblem Make(Random random)
    {
        var (learners, providers) = (random.Next(1, 4), random.Next(1, 3));
        int[] days = [.. Enumerable.Range(10, random.Next(1, 4))];
        var homes = Enumerable.Range(0, learners).Select(_ => Place(random)).ToArray();
        return new()
        {
            Days = days,
            GridMinutes = 30,
            Needs = [.. Enumerable.Range(0, random.Next(1, 4)).Select(i => MakeNeed(i, random.Next(learners), random.Next(providers), homes, random))],
            Providers = [.. Enumerable.Range(0, providers).Select(p => Person($"p{p}", days, random))],
            Learners = [.. Enumerable.Range(0, learners).Select(l => Person($"l{l}", days, random))],
            Busy = [.. Enumerable.Range(0, random.Next(4)).Select(_ => Standing(days[random.Next(days.Length)], random.Next(learners), random.Next(providers), homes, random))],
            Travel = new([.. from a in Places from b in Places where a != b select (a, b, random.Next(5, 75))]),
        };
    }

    private static string[] Places { get; } = ["a", "b", "c"];

    private static string Place(Random random) => Places[random.Next(Places.Length)];

    private static Need MakeNeed(int index, int learner, int provider, string[] homes, Random random)
    {
        var smallest = random.Next(3) == 0 ? 60 : 30;
        // two windows of one service share its days; adults' time knows no learner
        var line = random.Next(3) == 0 ? $"p{provider} l{learner}" : $"line{index}";
        return new(line, index, random.Next(6) == 0 ? null : $"l{learner}", $"p{provider}", homes[learner], random.Next(10, 130), smallest, smallest + (30 * random.Next(3)));
    }

    private static Availability Person(string id, int[] days, Random random) =>
        new(id, [.. days.SelectMany(day => Hours(day, random))], random.Next(2) == 0 ? null : random.Next(30, 150));

    private static IEnumerable<DayTime> Hours(int day, Random random)
    {
        var start = (9 * Hour) + random.Next(60);
        yield return new(day, start, start + random.Next(70, 130));
        if (random.Next(3) == 0)
            yield return new(day, 12 * Hour, (12 * Hour) + random.Next(30, 90));
    }

    private static BusyVisit Standing(int day, int learner, int provider, string[] homes, Random random)
    {
        var start = (9 * Hour) + random.Next(180);
        return new(random.Next(3) == 0 ? $"p{provider} l{learner}" : null, $"p{provider}", random.Next(5) == 0 ? null : $"l{learner}", homes[learner], new(day, start, start + random.Next(15, 60)));
    }
}
