using System.Data;
using System.Text.Json;
using System.Text.RegularExpressions;
using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Hosting;
using Microsoft.AspNetCore.Http;
using Microsoft.AspNetCore.Mvc.Testing;
using Microsoft.AspNetCore.TestHost;
using Microsoft.EntityFrameworkCore;
using Microsoft.Extensions.DependencyInjection;
using NodaTime;
using Npgsql;
using TeamCircle.Core.Learners;
using TeamCircle.Core.People;
using TeamCircle.Core.Practice;
using TeamCircle.Core.Progress;
using TeamCircle.Core.Routines;
using TeamCircle.Data;
using TeamCircle.Data.Account;
using TeamCircle.Data.Learners;
using TeamCircle.Data.People;
using TeamCircle.Data.Postgres;
using TeamCircle.Data.Practice;
using TeamCircle.Data.Progress;
using TeamCircle.Data.Routines;

namespace TeamCircle.Benchmarks;

/// <summary>
/// The pages of a goal with 400 probes and of its wait with 5,000 trials, signed in, against two addresses of the same program without sign-in or
/// record of access: one reads the probes or trials by a statement written by hand under the same walls and writes them as JSON, one does all the
/// reading that the page does and shows nothing.
/// </summary>
internal static partial class GoalBenchmark
{
    private const int Probes = 400, Practices = 500, TrialsOfEach = 10;
    private const string Email = "odalys@tallowfern.example";

    private const string ProbeRows =
        """
        select p.id, p.on_day::text, p.value, p.opportunities, p.kind, p.stage, p.state, p.position, p.side, p.place, p.conditions, who.name, writer.name
        from portal.probes p
            join portal.people who on (who.agency_id, who.id) = (p.agency_id, p.provider_id)
            join portal.people writer on (writer.agency_id, writer.id) = (p.agency_id, p.recorded_by)
        where p.agency_id = $1 and p.goal_id = $2 order by p.on_day desc
        """;

    private const string TrialRows =
        """
        select t.practice_id, t.step, t.ending, t.counts, t.at_once, t.remembered, t.prompts_needed, t.response, t.time_to_respond, t.censored_at, t.wait_kept,
               p.on_day::text, p.provider_id, p.record #>> '{conditions,side}', p.record #>> '{conditions,position}', p.record #>> '{conditions,state,start}'
        from portal.trials t join portal.practices p on (p.agency_id, p.id) = (t.agency_id, t.practice_id)
        where t.agency_id = $1 and t.live and p.live and t.goals @> array[$2]
        """;

    public static async Task RunAsync()
    {
        var folder = Path.Combine(Path.GetTempPath(), $"teamcircle-benchmark-{Environment.ProcessId}");
        await using (var server = await PostgresLauncher.StartAsync(new PostgresOptions(folder) { Durable = false }))
        {
            await server.EnsureDatabaseAsync("benchmark");
            await Migrate.RunAsync(server.ConnectionString("benchmark"));
            await server.AllowSignInAsync();
            await using var portal = new MeasuredPortal(server.ConnectionString("benchmark", Migrate.App), folder);
            await MeasureAsync(portal, server);
        }
        Directory.Delete(folder, recursive: true);
    }

    private static async Task MeasureAsync(MeasuredPortal portal, PostgresServer server)
    {
        var world = await FillAsync(portal.Services);
        await using (var owner = new NpgsqlConnection(server.ConnectionString("benchmark")))
        {
            await owner.OpenAsync();
            await new NpgsqlCommand("vacuum analyze", owner).ExecuteNonQueryAsync();
        }
        portal.World = world;
        using var browser = await SignedInAsync(portal);
        var trials = $"{Practices * TrialsOfEach} trials";
        foreach (var (name, page, rows, read) in new[]
        {
            ($"goal, {Probes} probes", $"/goals/{world.Goal}", "probes", "goal"), ($"wait of the goal, {trials}", $"/goals/{world.Goal}/wait", "trials", "goal-wait"),
            ($"wait of the routine, {trials}", $"/routines/{world.Routine}/wait", "trials", "routine-wait"),
            ($"one routine in many hands, {trials}", $"/routines/{world.Routine}/hands", "trials", "hands"),
        })
        {
            foreach (var floor in new[] { rows, read })
            {
                var rounds = await Rounds.MeasureAsync(() => TenTimesAsync(browser, $"/floor/{floor}"), () => TenTimesAsync(browser, page));
                Console.WriteLine($"{name}: floor ({(floor == rows ? "rows by hand" : "the page's reading")}) {rounds.FloorMedian / 10:0.0} ms, page {rounds.WorkMedian / 10:0.0} ms, ratio {rounds.Ratio}");
            }
        }
    }

    private static async Task TenTimesAsync(HttpClient browser, string path)
    {
        for (var i = 0; i < 10; i++)
        {
            using var answer = await browser.GetAsync(new Uri(path, UriKind.Relative));
            if (answer.StatusCode != System.Net.HttpStatusCode.OK)
                throw new InvalidOperationException($"{path} answered {(int)answer.StatusCode}.");
            await answer.Content.ReadAsByteArrayAsync();
        }
    }

    private static async Task<HttpClient> SignedInAsync(MeasuredPortal portal)
    {
        var browser = portal.CreateClient(new() { BaseAddress = new Uri("https://portal.tallowfern.example") });
        var page = await browser.GetStringAsync(new Uri("/sign-in", UriKind.Relative));
        using var form = new FormUrlEncodedContent(new Dictionary<string, string>
        {
            ["Input.Email"] = Email,
            ["Input.Password"] = CreateDemonstrationAccounts.Passphrase,
            ["__RequestVerificationToken"] = Token().Match(page).Groups[1].Value,
        });
        (await browser.PostAsync(new Uri("/sign-in", UriKind.Relative), form)).EnsureSuccessStatusCode().Dispose();
        return browser;
    }

    [GeneratedRegex("name=\"__RequestVerificationToken\"[^>]*value=\"([^\"]+)\"")]
    private static partial Regex Token();

    /// <summary>What the floors read.</summary>
    internal sealed record World(Scope Scope, int Goal, int Routine);

    private sealed class MeasuredPortal(string connection, string folder) : WebApplicationFactory<Web.Startup.CurrentCaller>, IStartupFilter
    {
        public World? World { get; set; }

        protected override void ConfigureWebHost(IWebHostBuilder builder)
        {
            builder.UseSolutionRelativeContentRoot("src/TeamCircle.Web").UseEnvironment("Production").UseSetting("ConnectionStrings:TeamCircle", connection)
                .UseSetting("Seal:KeyFile", Path.Combine(folder, "keys", "seal.key")).UseSetting("Logs:Folder", Path.Combine(folder, "logs"));
            foreach (var limit in new[] { "PersonEachMinute", "AddressEachMinute", "SignInsEachMinute" })
                builder.UseSetting($"Limits:{limit}", "1000000");
            builder.ConfigureTestServices(services => services.AddSingleton<IStartupFilter>(this).AddSingleton(new DemonstrationAccounts(AreLetIn: true)));
        }

        public Action<IApplicationBuilder> Configure(Action<IApplicationBuilder> next) => app =>
        {
            app.Map("/floor", floor => floor.Run(context => context.Request.Path.Value switch
            {
                "/probes" => WriteAsync(context, ProbeRows),
                "/trials" => WriteAsync(context, TrialRows),
                var read => ReadAsync(context.RequestServices, read![1..]),
            }));
            next(app);
        };

        private Task ReadAsync(IServiceProvider services, string what)
        {
            var (scope, goal, routine) = World!;
            return what switch
            {
                "goal" => services.GetRequiredService<ReadGoalCourse>().RunAsync(scope, CallerOf(scope), goal),
                "goal-wait" => services.GetRequiredService<ReadWait>().OfGoalAsync(scope, goal),
                "routine-wait" => services.GetRequiredService<ReadWait>().OfRoutineAsync(scope, routine),
                _ => services.GetRequiredService<ReadHands>().RunAsync(scope, routine),
            };
        }

        private static Caller CallerOf(Scope scope) => new(
            scope.AgencyId, scope.PersonId, "odalys", new HashSet<Role> { Role.Provider }, [.. scope.Learners.Select(l => new Standing(l, Relation.Team))],
            SystemClock.Instance.GetCurrentInstant().InUtc().Date);

        private async Task WriteAsync(HttpContext context, string sql)
        {
            var (scope, goal, _) = World!;
            await using var work = await context.RequestServices.GetRequiredService<Portal>().OpenAsync(scope, IsolationLevel.RepeatableRead);
            await using var command = new NpgsqlCommand(sql, work.Connection) { Parameters = { new() { Value = scope.AgencyId }, new() { Value = goal } } };
            var read = new List<object[]>();
            await using (var rows = await command.ExecuteReaderAsync())
            {
                while (await rows.ReadAsync())
                {
                    var values = new object[rows.FieldCount];
                    rows.GetValues(values);
                    read.Add([.. values.Select(v => v is DBNull ? null! : v)]);
                }
            }
            await work.CommitAsync();
            await context.Response.WriteAsJsonAsync(read, JsonSerializerOptions.Default);
        }
    }

    private static async Task<World> FillAsync(IServiceProvider services)
    {
        var portal = services.GetRequiredService<Portal>();
        int agency;
        await using (var begin = await portal.OpenAsync(new Scope(Wall.Agency, 0, 0, [], true, "a benchmark"), IsolationLevel.ReadCommitted))
        {
            agency = await begin.Db.Database.SqlQuery<int>($"select portal.make_agency('GOAL', 'Tallowfern Education Cooperative', 'America/Los_Angeles') as \"Value\"").SingleAsync();
            await begin.CommitAsync();
        }
        var terminal = await portal.ReadAsync(new Scope(Wall.Agency, agency, 0, [], true, "a benchmark"), db => db.People.Select(p => p.Id).SingleAsync());
        var whole = new Scope(Wall.Agency, agency, terminal, [], true, "a benchmark");
        World world;
        await using (var work = await portal.OpenAsync(whole, IsolationLevel.ReadCommitted))
        {
            world = await AddRowsAsync(work.Db, agency);
            await work.CommitAsync();
        }
        await using var accounts = services.CreateAsyncScope();
        await accounts.ServiceProvider.GetRequiredService<CreateDemonstrationAccounts>().RunAsync(whole, isDevelopment: true, CancellationToken.None);
        return world;
    }

    private static async Task<World> AddRowsAsync(PortalDb db, int agency)
    {
        var today = SystemClock.Instance.GetCurrentInstant().InUtc().Date;
        var first = today.PlusDays(-Probes - 10);
        var people = await AddAsync(db, new[] { Email, "bram@tallowfern.example", "marisol@tallowfern.example" }.Select(e => new PersonRow { AgencyId = agency, Name = e.Split('@')[0], Email = e }));
        await AddAsync(db, people.Select(p => new PersonRoleRow { AgencyId = agency, PersonId = p.Id, Role = Role.Provider, FromDay = first }));
        var learner = (await AddAsync(db, [new LearnerRow { AgencyId = agency, Code = "L", Name = "Wren Belmares", MostMinutesADay = 200 }]))[0].Id;
        await AddAsync(db, people.Select(p => new RelationRow { AgencyId = agency, LearnerId = learner, PersonId = p.Id, Kind = Relation.Team, FromDay = first }));
        await AddAsync(db, [new Data.Calendar.TermRow { AgencyId = agency, Name = "Year", FirstDay = first, LastDay = today.PlusDays(60) }]);
        var plan = (await AddAsync(db, [new PlanRow { AgencyId = agency, LearnerId = learner, StartDay = first, EndDay = today.PlusDays(60) }]))[0];
        var goal = (await AddAsync(db, [new GoalRow { AgencyId = agency, LearnerId = learner, PlanId = plan.Id, Code = "G", Area = "Looking", Statement = "Looks.", Measure = Measure.PercentIndependent, Target = 75, TargetDay = plan.EndDay, TeachingFrom = first.PlusDays(60), CriterionDays = 3, CriterionOf = 4, FromDay = first, ToDay = plan.EndDay }]))[0].Id;
        await AddAsync(db, [new ProbeCommitmentRow { AgencyId = agency, LearnerId = learner, GoalId = goal, FromDay = first, Probes = 1 }]);
        await AddAsync(db, people.Select(p => new GoalOwnerRow { AgencyId = agency, LearnerId = learner, GoalId = goal, PersonId = p.Id, FromDay = first, ToDay = plan.EndDay }));
        await AddAsync(db, Enumerable.Range(0, Probes).Select(i => new ProbeRow
        {
            AgencyId = agency,
            Id = Guid.CreateVersion7(),
            LearnerId = learner,
            GoalId = goal,
            ProviderId = people[i % 3].Id,
            RecordedBy = people[i % 3].Id,
            OnDay = first.PlusDays(i),
            Value = i * 7 % 11 * 10 * i / Probes,
            Opportunities = 10,
            Kind = i % 4 == 3 ? ProbeKind.Teaching : ProbeKind.Probe,
            State = StateOfLearner.QuietAlert,
            Position = "in her chair",
            Side = i % 2 == 0 ? "left" : "right",
            Place = "kitchen",
        }));
        return new(new Scope(Wall.Person, agency, people[0].Id, [learner], true, "a benchmark"), goal, await AddPracticesAsync(db, agency, learner, goal, people, first));
    }

    private static async Task<int> AddPracticesAsync(PortalDb db, int agency, int learner, int goal, List<PersonRow> people, LocalDate first)
    {
        var card = new RoutineContent { WaitSeconds = 12, Prompts = [new("point", "point"), new("say", "say")], Steps = [new("press", StepKind.Response, "She presses.", [goal])] };
        var routine = (await AddAsync(db, [new RoutineRow { AgencyId = agency, LearnerId = learner, Name = "Watering the herbs" }]))[0].Id;
        var version = (await AddAsync(db, [new RoutineVersionRow { AgencyId = agency, LearnerId = learner, RoutineId = routine, Number = 1, Content = card.Write(), WrittenBy = people[0].Id }]))[0].Id;
        var practices = await AddAsync(db, Enumerable.Range(0, Practices).Select(i => Practice(agency, learner, routine, version, people[i % 3].Id, first.PlusDays(i * Probes / Practices), i)));
        await AddAsync(db, practices.SelectMany((p, i) => Enumerable.Range(0, TrialsOfEach).Select(t =>
        {
            var answered = (i + t) % 3 > 0;
            return new TrialRow
            {
                AgencyId = agency,
                Id = Guid.CreateVersion7(),
                LearnerId = learner,
                PracticeId = p.Id,
                Step = "press",
                Goals = [goal],
                Counts = true,
                WaitKept = true,
                Ending = answered ? TrialEnd.Response : TrialEnd.NoResponse,
                PromptsNeeded = answered ? 0 : null,
                Response = answered ? ResponseKind.HopedFor : null,
                TimeToRespond = answered ? 3000 + (i * 37 + t * 911) % 9000 : null,
                CensoredAt = answered ? null : 12_000,
            };
        })));
        return routine;
    }

    private static PracticeRow Practice(int agency, int learner, int routine, int version, int person, LocalDate day, int number)
    {
        var start = day.AtMidnight().InUtc().ToInstant() + Duration.FromHours(17);
        var record = new PracticeRecord
        {
            Id = Guid.CreateVersion7(),
            Routine = routine,
            Version = version,
            Entry = PracticeEntry.Live,
            StartedAt = start,
            EndedAt = start + Duration.FromMinutes(10),
            Conditions = new() { Side = number % 2 == 0 ? "left" : "right", Position = number % 3 == 0 ? "on her side" : "in her chair", State = new(StateOfLearner.QuietAlert) },
        };
        return new() { AgencyId = agency, Id = record.Id, LearnerId = learner, RoutineId = routine, VersionId = version, ProviderId = person, StartedAt = start, EndedAt = record.EndedAt, OnDay = day, Record = PracticeJson.Write(record) };
    }

    private static async Task<List<T>> AddAsync<T>(PortalDb db, IEnumerable<T> rows) where T : class
    {
        List<T> added = [.. rows];
        db.AddRange(added);
        await db.SaveChangesAsync();
        return added;
    }
}
