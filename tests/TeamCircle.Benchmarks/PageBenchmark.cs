using System.Diagnostics;
using TeamCircle.Core.People;
using TeamCircle.Data.Seed;

namespace TeamCircle.Benchmarks;

/// <summary>
/// Pages of a big agency, signed in, warm, 32 connections, each against a floor: an address of the same program that sends by hand the same
/// statements in the same transactions (sign-in, rights, record of access and all) and answers with the same bytes. Portal, floor and whoever asks
/// are one process.
/// </summary>
internal static class PageBenchmark
{
    private const int Connections = 32, WarmUps = 1, Counted = 7;
    private static readonly TimeSpan Slice = TimeSpan.FromSeconds(3);

    /// <param name="IsFamilys">For families; else for staff.</param>
    internal sealed record Page(string Name, bool IsFamilys, Func<LoadPerson, string> Path);

    private static readonly Page[] Pages =
    [
        new("Today", false, _ => "/"), new("caseload", false, _ => "/caseload"), new("learner", false, p => $"/learners/{p.Learner}"),
        new("calendar week", false, _ => "/calendar"), new("working", false, p => $"/audit/services/{p.Service}"), new("goal", false, p => $"/goals/{p.Goal}"),
        new("dates", false, p => $"/learners/{p.Learner}/dates"), new("family", true, p => $"/family/{p.Learner}"),
    ];

    /// <summary>The pages that somebody of the role opens.</summary>
    internal static IEnumerable<Page> PagesOf(Role role) => Pages.Where(p => p.IsFamilys == role is Role.Family);

    /// <param name="only">Names of pages; none: all.</param>
    public static async Task RunAsync(string folder, IReadOnlyList<string> only)
    {
        await using var agency = await LoadedAgency.OpenAsync(folder);
        await using var site = agency.Site(LoadSeed.AsOf);
        var people = await LoadPeople.FindAsync(site.Services, agency.Id);
        foreach (var crowd in people.GroupBy(p => p.Role is Role.Family))
        {
            var (visitors, some) = (new List<LoadVisitor>(), crowd.ToList());
            for (var i = 0; i < Connections; i++)
                visitors.Add(await LoadVisitor.SignInAsync(some[i % some.Count], site.Address));
            foreach (var page in PagesOf(some[0].Role).Where(p => only.Count == 0 || only.Contains(p.Name)))
                await MeasureAsync(site, page, visitors);
            visitors.ForEach(v => v.Dispose());
        }
    }

    /// <summary>No time, but every statement of the pages explained where the agency is big.</summary>
    public static async Task ExplainAsync(string folder)
    {
        await using var agency = await LoadedAgency.OpenAsync(folder);
        await using var site = agency.Site(LoadSeed.AsOf);
        var people = await LoadPeople.FindAsync(site.Services, agency.Id);
        await using var owner = await agency.OwnerAsync();
        var check = new PlanCheck(site.Services, await PlanCheck.LargeAsync(owner));
        site.Recorder.Listen();
        foreach (var role in new[] { Role.CaseManager, Role.Provider, Role.Family })
        {
            using var visitor = await LoadVisitor.SignInAsync(people.First(p => p.Role == role), site.Address);
            foreach (var (name, _, path) in PagesOf(role))
            {
                await visitor.ReadAsync(path(visitor.Person));
                site.Recorder.Keep(name, await visitor.ReadAsync(path(visitor.Person), name));
                await check.RunAsync($"{name} ({role})", site.Recorder.Script(name));
            }
        }
        Console.WriteLine($"{check.Statements} statements explained, {check.Found.Count} to look at");
        foreach (var found in check.Found)
            Console.WriteLine(found);
    }

    private static async Task MeasureAsync(LiveSite site, Page page, List<LoadVisitor> visitors)
    {
        var (name, _, path) = page;
        string KeyOf(LoadVisitor visitor) => $"{name.Replace(' ', '-')}-{visitor.Person.Id}";
        site.Recorder.Listen();
        foreach (var visitor in visitors.DistinctBy(v => v.Person))
        {
            for (var warm = 0; warm < 3; warm++)
                await visitor.ReadAsync(path(visitor.Person));
            site.Recorder.Keep(KeyOf(visitor), await visitor.ReadAsync(path(visitor.Person), KeyOf(visitor)));
        }
        site.Recorder.Rest();
        var (floors, pages, latencies) = (new List<double>(), new List<double>(), new List<double>());
        for (var round = 0; round < WarmUps + Counted; round++)
        {
            var floor = await SliceAsync(visitors, v => v.ReadAsync($"/floor/{KeyOf(v)}"));
            var shown = await SliceAsync(visitors, v => v.ReadAsync(path(v.Person)));
            if (round < WarmUps)
                continue;
            floors.Add(floor.Count / Slice.TotalSeconds);
            pages.Add(shown.Count / Slice.TotalSeconds);
            latencies.AddRange(shown);
        }
        Tell(site, name, KeyOf(visitors[0]), new(floors, pages), latencies);
    }

    private static void Tell(LiveSite site, string name, string key, Rounds rates, List<double> latencies)
    {
        latencies.Sort();
        var (p50, p99) = (latencies[latencies.Count / 2], latencies[latencies.Count * 99 / 100]);
        Console.WriteLine($"{name}: {site.Recorder.Script(key).Statements.Count()} statements, floor {rates.FloorMedian:0}/s, page {rates.WorkMedian:0}/s, ratio {rates.Ratio}; "
            + $"p50 {p50:0} ms, p99 {p99:0} ms, {p99 / p50:0.0} times; {latencies.Count} requests");
        if (Environment.GetEnvironmentVariable("SHOW_STATEMENTS") is not null)
            Console.WriteLine(string.Join('\n', site.Recorder.Script(key).Statements.Select(s => "    " + string.Join(' ', s.Split((char[]?)null, StringSplitOptions.RemoveEmptyEntries)))));
    }

    /// <summary>Milliseconds of each request that ended within the slice; every connection asks again as soon as it has its answer.</summary>
    private static async Task<List<double>> SliceAsync(IReadOnlyList<LoadVisitor> visitors, Func<LoadVisitor, Task> ask)
    {
        var began = Stopwatch.GetTimestamp();
        var all = await Task.WhenAll(visitors.Select(visitor => Task.Run(async () =>
        {
            var took = new List<double>();
            while (true)
            {
                var start = Stopwatch.GetTimestamp();
                await ask(visitor);
                if (Stopwatch.GetElapsedTime(began) > Slice)
                    return took;
                took.Add(Stopwatch.GetElapsedTime(start).TotalMilliseconds);
            }
        })));
        return [.. all.SelectMany(t => t)];
    }
}
