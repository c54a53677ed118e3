using System.Collections.Concurrent;
using System.Diagnostics;
using System.Text.Json;
using NodaTime;
using Npgsql;
using TeamCircle.Data.Seed;

namespace TeamCircle.Benchmarks;

/// <summary>
/// Visits logged by form at a rate that does not wait for the portal: each arrives at its moment, whether earlier ones were answered or not, and
/// its time counts from that moment. Then a morning: every tablet sends its whole list at once. PostgreSQL is durable. Afterwards the rows are counted:
/// every answered save is there once, with its changes, and every change lies in a sealed block.
/// </summary>
internal static class SaveBenchmark
{
    /// <summary>After the day of the made-up rows: what was planned until then waits to be logged.</summary>
    private const int DaysLater = 45;
    private const int Managers = 300, Tablets = 300, Seed = 1;

    /// <summary>A portal that has just been started compiles for some seconds; who works in it has had it running since the morning.</summary>
    private const int WarmSeconds = 45;

    /// <param name="each">Saves arriving each second.</param>
    public static async Task RunAsync(string folder, double each, double minutes)
    {
        await using var agency = await LoadedAgency.OpenAsync(folder, isDurable: true);
        await using var site = agency.Site(LoadSeed.AsOf.PlusDays(DaysLater));
        await using var owner = await agency.OwnerAsync();
        var check = new SavedCheck(owner, agency.Id, site.Ahead);
        await ArriveAsync(site, owner, check, agency.Id, each, minutes);
        await MorningAsync(site, owner, check, agency.Id);
    }

    private static async Task ArriveAsync(LiveSite site, NpgsqlConnection owner, SavedCheck check, int agency, double each, double minutes)
    {
        var visits = await VisitsAsync(owner, agency, "CaseManager", Managers, int.MaxValue);
        Shuffle(visits);
        var visitors = await SignInAsync(site, agency, visits);
        var (before, wanted) = ((int)(each / 2 * WarmSeconds), (int)(each * minutes * 60));
        Console.WriteLine($"{visitors.Count} people are signed in; of {visits.Count} visits {before} arrive first, at half the rate and not counted, then {Math.Clamp(visits.Count - before, 0, wanted)}");
        await ArriveAsync(visitors, visits.Take(before), each / 2);
        await check.BeginAsync();
        var (answered, arriving, all) = await ArriveAsync(visitors, visits.Skip(before).Take(wanted), each);
        Tell($"{answered.Count} saves arriving in {arriving.TotalSeconds:0.0} s ({answered.Count / arriving.TotalSeconds:0}/s), all answered after {all.TotalSeconds:0.0} s",
            answered.Select(a => a.Ms), answered.Count(a => !a.Saved));
        Console.WriteLine(await check.EndAsync(answered.Count(a => a.Saved)));
        foreach (var visitor in visitors.Values)
            visitor.Dispose();
    }

    /// <summary>Saves visits as they arrive by chance, so many a second.</summary>
    /// <returns>Of each how long it took from the moment at which it arrived and whether it was saved, how long they arrived, and when the last was answered.</returns>
    private static async Task<(IReadOnlyCollection<(double Ms, bool Saved)> Answered, TimeSpan Arriving, TimeSpan All)> ArriveAsync(
        Dictionary<int, LoadVisitor> visitors, IEnumerable<WaitingVisit> visits, double each)
    {
        var answered = new ConcurrentBag<(double, bool)>();
        var (chance, clock, due) = (new Random(Seed), Stopwatch.StartNew(), 0.0);
        var all = new List<Task>();
        foreach (var visit in visits)
        {
            due += -Math.Log(1 - chance.NextDouble()) / each * 1000;
            if (due > clock.Elapsed.TotalMilliseconds + 1)
                await Task.Delay(TimeSpan.FromMilliseconds(due - clock.Elapsed.TotalMilliseconds));
            all.Add(SaveAsync(visitors[visit.Person], visit, clock, due, answered));
        }
        var arriving = clock.Elapsed;
        await Task.WhenAll(all);
        return (answered, arriving, clock.Elapsed);
    }

    /// <summary>Every tablet comes at the same moment, with fifty acts or what its person has.</summary>
    private static async Task MorningAsync(LiveSite site, NpgsqlConnection owner, SavedCheck check, int agency)
    {
        var visits = await VisitsAsync(owner, agency, "Team", Tablets, 50);
        if (visits.Count == 0)
        {
            Console.WriteLine("no morning: nothing is left for tablets to send");
            return;
        }
        var visitors = await SignInAsync(site, agency, visits);
        var devices = new Dictionary<int, Guid>();
        foreach (var (person, visitor) in visitors)
            devices[person] = await visitor.EnrolAsync();
        await check.BeginAsync();
        var (clock, took, ends) = (Stopwatch.StartNew(), new ConcurrentBag<double>(), new ConcurrentBag<string>());
        await Task.WhenAll(visits.GroupBy(v => v.Person).Select(async tablet =>
        {
            var answer = await visitors[tablet.Key].SendAsync(devices[tablet.Key], [.. tablet.Select(v => v.Act())]);
            took.Add(clock.Elapsed.TotalMilliseconds);
            foreach (var one in answer.GetProperty("answers").EnumerateArray())
                ends.Add(one.GetProperty("end").GetString()!);
        }));
        Tell($"{devices.Count} tablets at once, {visits.Count} acts in {clock.Elapsed.TotalSeconds:0.0} s ({visits.Count / clock.Elapsed.TotalSeconds:0}/s); "
            + string.Join(", ", ends.GroupBy(e => e).Select(g => $"{g.Count()} {g.Key}")) + "; a tablet's answer", took, devices.Count - took.Count);
        Console.WriteLine(await check.EndAsync(ends.Count(e => e == "stored")));
        foreach (var visitor in visitors.Values)
            visitor.Dispose();
    }

    private static async Task SaveAsync(LoadVisitor visitor, WaitingVisit visit, Stopwatch clock, double due, ConcurrentBag<(double, bool)> answered)
    {
        var isSaved = await visitor.LogAsync(visit);
        answered.Add((clock.Elapsed.TotalMilliseconds - due, isSaved));
    }

    private static void Tell(string what, IEnumerable<double> took, int errors)
    {
        var ms = took.Order().ToList();
        double At(double share) => ms[Math.Min(ms.Count - 1, (int)(ms.Count * share))];
        Console.WriteLine($"{what}: p50 {At(0.5):0} ms, p95 {At(0.95):0} ms, p99 {At(0.99):0} ms, most {ms[^1]:0} ms; {errors} errors");
    }

    private static async Task<Dictionary<int, LoadVisitor>> SignInAsync(LiveSite site, int agency, IEnumerable<WaitingVisit> visits)
    {
        var visitors = new Dictionary<int, LoadVisitor>();
        var people = visits.Select(v => new LoadPerson(v.Person, v.Email, default, 0, 0, 0)).DistinctBy(p => p.Id).ToList();
        foreach (var person in await LoadPeople.LetInAsync(site.Services, agency, people))
        {
            visitors[person.Id] = await LoadVisitor.SignInAsync(person, site.Address, connections: 16);
            await visitors[person.Id].ContactAsync();
        }
        return visitors;
    }

    /// <summary>What waits to be logged by the first people of a kind.</summary>
    private static async Task<List<WaitingVisit>> VisitsAsync(NpgsqlConnection owner, int agency, string kind, int people, int mostEach)
    {
        const string Waiting = """
            with asked as (select distinct person_id from portal.relations where agency_id = $1 and kind = $2 order by 1 limit $3),
            waiting as (
                select r.person_id, p.email, v.id, v.on_day, v.start_time, v.minutes, v.version, row_number() over (partition by r.person_id order by v.on_day, v.start_time, v.id) as nth
                from asked a join portal.relations r on r.agency_id = $1 and r.person_id = a.person_id and r.kind = $2
                join portal.people p on p.agency_id = $1 and p.id = r.person_id
                join portal.visits v on v.agency_id = $1 and v.learner_id = r.learner_id and v.state = 'Planned' and v.live and v.on_day > $4 and v.on_day < $5
                where $2 = 'CaseManager' or v.provider_id = r.person_id)
            select person_id, email, id, on_day, start_time, minutes, version from waiting where nth <= $6 order by person_id, nth
            """;
        await using var command = new NpgsqlCommand(Waiting, owner)
        {
            Parameters = { new() { Value = agency }, new() { Value = kind }, new() { Value = people }, new() { Value = LoadSeed.AsOf.ToDateOnly() },
                new() { Value = LoadSeed.AsOf.PlusDays(DaysLater).ToDateOnly() }, new() { Value = mostEach } },
        };
        var visits = new List<WaitingVisit>();
        await using var rows = await command.ExecuteReaderAsync();
        while (await rows.ReadAsync())
            visits.Add(new(rows.GetInt32(0), rows.GetString(1), rows.GetGuid(2), rows.GetFieldValue<TimeOnly>(4), rows.GetInt32(5), rows.GetInt32(6)));
        return visits;
    }

    private static void Shuffle(List<WaitingVisit> visits) => new Random(Seed).Shuffle(System.Runtime.InteropServices.CollectionsMarshal.AsSpan(visits));
}

/// <summary>A visit that took place and waits to be logged by a person.</summary>
internal sealed record WaitingVisit(int Person, string Email, Guid Id, TimeOnly Start, int Minutes, int Version)
{
    private string Begins => $"{Start:HH\\:mm}";

    private string Ends => $"{Start.AddMinutes(Minutes):HH\\:mm}";

    /// <summary>As its form sends it.</summary>
    public Dictionary<string, string> Fields() => new()
    {
        ["operation"] = Guid.CreateVersion7().ToString(),
        ["Input.Outcome"] = "Given",
        ["Input.Start"] = Begins,
        ["Input.End"] = Ends,
        ["Input.Version"] = $"{Version}",
    };

    /// <summary>As a tablet sends it.</summary>
    public JsonElement Act() => JsonSerializer.SerializeToElement(new
    {
        id = Guid.CreateVersion7(),
        format = 2,
        kind = "visit",
        made = Instant.FromUtc(2027, 4, 1, 12, 0).ToString(),
        body = new { visits = new[] { Id }, outcome = "given", start = Begins, end = Ends },
    });
}
