using System.Diagnostics;
using Npgsql;
using TeamCircle.Data.Seed;

namespace TeamCircle.Benchmarks;

/// <summary>
/// Pages at speed for as long as one likes, and what the portal holds meanwhile, looked at every so often: the collector's heap after forced
/// collections, the process's working set, connections, temporary files and the log. What grows shows as a slope.
/// </summary>
internal static class SoakBenchmark
{
    private const int Connections = 8, Looks = 12;

    public static async Task RunAsync(string folder, double minutes)
    {
        await using var agency = await LoadedAgency.OpenAsync(folder);
        await using var site = agency.Site(LoadSeed.AsOf, hasAllJobs: true);
        await using var owner = await agency.OwnerAsync();
        var people = await LoadPeople.FindAsync(site.Services, agency.Id);
        var visitors = new List<LoadVisitor>();
        for (var i = 0; i < Connections; i++)
            visitors.Add(await LoadVisitor.SignInAsync(people[i * people.Count / Connections], site.Address));
        using var enough = new CancellationTokenSource();
        var pages = new long[1];
        var working = visitors.Select(v => Task.Run(() => WorkAsync(v, pages, enough.Token))).ToList();
        for (var look = 0; look <= Looks; look++)
        {
            await LookAsync(site, owner, look * minutes / Looks, pages);
            await Task.Delay(TimeSpan.FromMinutes(minutes / Looks));
        }
        await enough.CancelAsync();
        await Task.WhenAll(working);
        visitors.ForEach(v => v.Dispose());
    }

    private static async Task WorkAsync(LoadVisitor visitor, long[] pages, CancellationToken enough)
    {
        while (!enough.IsCancellationRequested)
        {
            foreach (var page in PageBenchmark.PagesOf(visitor.Person.Role))
            {
                await visitor.ReadAsync(page.Path(visitor.Person));
                Interlocked.Increment(ref pages[0]);
            }
        }
    }

    private static async Task LookAsync(LiveSite site, NpgsqlConnection owner, double minute, long[] pages)
    {
        for (var i = 0; i < 3; i++)
        {
            GC.Collect(GC.MaxGeneration, GCCollectionMode.Forced, blocking: true, compacting: true);
            GC.WaitForPendingFinalizers();
        }
        await using var command = new NpgsqlCommand("""
            select (select count(*) from pg_stat_activity where usename = 'teamcircle_app'), (select temp_files from pg_stat_database where datname = current_database())
            """, owner);
        await using var rows = await command.ExecuteReaderAsync();
        await rows.ReadAsync();
        using var self = Process.GetCurrentProcess();
        var log = Directory.GetFiles(site.Logs).Sum(f => new FileInfo(f).Length);
        Console.WriteLine($"{minute:0.0} min, {Interlocked.Read(ref pages[0])} pages: heap {GC.GetTotalMemory(false) / 1_048_576.0:0.0} MB, working set {self.WorkingSet64 / 1_048_576} MB, "
            + $"threads {self.Threads.Count}, handles {self.HandleCount}, connections {rows.GetInt64(0)}, temporary files of the database {rows.GetInt64(1)}, log {log / 1024} kB");
    }
}
