using System.Diagnostics;
using System.Globalization;
using TeamCircle.Core.MakeUps;
using TeamCircle.Web.Pages.MakeUps;

namespace TeamCircle.Web.Tests.MakeUps;

/// <summary>The search as a process: the same answers as in this one, stopped from outside, and its death is not ours.</summary>
[Collection(nameof(SearchProcess))]
public sealed class SearchProcessTests
{
    private static CancellationToken Stop => TestContext.Current.CancellationToken;

    /// <summary>Nine windows that pay one hour each, on thirty days: more than a first answer can prove.</summary>
    private static MakeUpProblem Problem(int dailyLimit = 60)
    {
        int[] days = [.. Enumerable.Range(0, 30).Select(d => (d / 5 * 7) + (d % 5))];
        DayTime[] hours = [.. days.Select(d => new DayTime(d, 8 * 60, 16 * 60))];
        return new()
        {
            Days = days,
            GridMinutes = 5,
            Needs = [.. Enumerable.Range(0, 9).Select(n => new Need(n % 2 == 0 ? "1" : "2", n * 7, "5", "7", n % 3 == 0 ? "clinic" : "home", 60, 15, 45))],
            Providers = [new("7", hours, dailyLimit)],
            Learners = [new("5", hours, null)],
            Busy = [new("1", "7", "5", "home", new(2, 9 * 60, 10 * 60))],
            Travel = new([("home", "clinic", 20)]),
            Refused = [("1", 0, 3)],
        };
    }

    [Fact]
    public async Task Answers_are_those_of_a_search_in_this_process()
    {
        var told = new List<MakeUpAnswer>();

        var there = await SearchProcess.RunAsync(Problem(), new(1), told.Add, Stop);

        var here = MakeUpPlanner.Propose(Problem(), new(1));
        Assert.Equal(here.Select(a => a.Visits), there.Select(a => a.Visits));
        Assert.Equal(here.Select(a => a.Unmet), there.Select(a => a.Unmet));
        Assert.Equal(here.Select(a => a.Levels), there.Select(a => a.Levels));
        Assert.Equal(MakeUpPlanner.First(Problem()).Visits, told[0].Visits);
    }

    [Fact]
    public async Task Search_that_is_stopped_ends_its_process()
    {
        using var stop = CancellationTokenSource.CreateLinkedTokenSource(Stop);

        await Assert.ThrowsAnyAsync<OperationCanceledException>(() => SearchProcess.RunAsync(Problem(), new(300), _ => stop.Cancel(), stop.Token));
    }

    [Fact]
    public async Task Search_whose_process_dies_is_a_failure_that_the_caller_hears_of()
    {
        Assert.SkipUnless(OperatingSystem.IsLinux(), "Finding the process by what started it is written for Linux.");

        var failure = await Assert.ThrowsAsync<InvalidOperationException>(() => SearchProcess.RunAsync(Problem(), new(301), _ => Abort(), Stop));

        Assert.Contains("no answer", failure.Message, StringComparison.Ordinal);
    }

    /// <summary>Ends the searches that this process has begun, as the solver's own checks do.</summary>
    private static void Abort()
    {
        foreach (var process in Process.GetProcesses())
        {
            using (process)
            {
                if (IsOwnSearch(process.Id))
                    process.Kill();
            }
        }
    }

    private static bool IsOwnSearch(int id)
    {
        try
        {
            var parent = File.ReadLines($"/proc/{id}/status").First(l => l.StartsWith("PPid:", StringComparison.Ordinal))[5..].Trim();
            return parent == Environment.ProcessId.ToString(CultureInfo.InvariantCulture)
                && File.ReadAllText($"/proc/{id}/cmdline").Contains(SearchProcess.Argument, StringComparison.Ordinal);
        }
        catch (Exception gone) when (gone is IOException or UnauthorizedAccessException)
        {
            return false; // it ended while it was looked at
        }
    }
}
