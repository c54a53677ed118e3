using System.Diagnostics;

namespace TeamCircle.Benchmarks;

/// <summary>Two things timed in turn in one process: some warm-ups, 2 where nothing else is said, then an odd number of rounds.</summary>
/// <param name="Floor">Milliseconds of each round.</param>
/// <param name="Work">Milliseconds of each round.</param>
internal sealed record Rounds(IReadOnlyList<double> Floor, IReadOnlyList<double> Work)
{
    /// <param name="counted">An odd number of rounds.</param>
    /// <param name="warmUps">Rounds that are not counted: the runtime compiles code anew that has run about thirty times.</param>
    public static async Task<Rounds> MeasureAsync(Func<Task> floor, Func<Task> work, int warmUps = 2, int counted = 7)
    {
        var (floors, works) = (new List<double>(), new List<double>());
        for (var i = 0; i < warmUps + counted; i++)
        {
            var (floorTook, workTook) = (await TimeAsync(floor), await TimeAsync(work));
            if (i < warmUps)
                continue;
            floors.Add(floorTook);
            works.Add(workTook);
        }
        return new(floors, works);
    }

    public double FloorMedian => Median(Floor);

    public double WorkMedian => Median(Work);

    /// <summary>Ratio of the medians, with the least and the most of single rounds.</summary>
    public string Ratio
    {
        get
        {
            var single = Work.Zip(Floor, (w, f) => w / f).ToList();
            return $"{WorkMedian / FloorMedian:0.00} ({single.Min():0.00} to {single.Max():0.00})";
        }
    }

    private static double Median(IReadOnlyList<double> values) => values.Order().ElementAt(values.Count / 2);

    private static async Task<double> TimeAsync(Func<Task> what)
    {
        var watch = Stopwatch.StartNew();
        await what();
        return watch.Elapsed.TotalMilliseconds;
    }
}
