using NodaTime;
using Npgsql;
using TeamCircle.Core;
using TeamCircle.Core.Disputes;
using TeamCircle.Core.Family;
using TeamCircle.Core.Practice;
using TeamCircle.Core.Progress;
using TeamCircle.Core.Retention;
using TeamCircle.Core.Rights;
using TeamCircle.Core.Routines;
using TeamCircle.Data.Disputes;
using TeamCircle.Data.Family;
using TeamCircle.Data.History;
using TeamCircle.Data.Practice;
using TeamCircle.Data.Progress;
using TeamCircle.Data.Quiet;
using TeamCircle.Data.Reports;
using TeamCircle.Data.Retention;
using TeamCircle.Data.Rights;
using TeamCircle.Data.Routines;
using TeamCircle.Data.Sessions;
using TeamCircle.Data.Tests.Closing;
using TeamCircle.Testing;
using TeamCircle.Testing.Postgres;

namespace TeamCircle.Data.Tests.Retention;

/// <summary>Parts of a record that are destroyed, over years of the clock: what goes, what stays, who it takes, and what the trail still shows (34 CFR 300.624, ASVS 14.2.7).</summary>
public sealed class RetentionTests(TestDatabase database) : IClassFixture<TestDatabase>, IAsyncLifetime
{
    /// <summary>Stands in every entry of Wren's that can be destroyed, and nowhere else.</summary>
    private const string Words = "the velvet lantern";

    private static readonly LocalDate Tuesday = new(2026, 9, 15);
    private ClosingAgency _closing = null!;
    private TestTeam _team = null!;
    private Guid _session;

    private TestAgency Agency => _closing.Agency;

    private static CancellationToken Stop => TestContext.Current.CancellationToken;

    /// <summary>A record with all its parts, some of it in a count that is closed and sealed.</summary>
    public async ValueTask InitializeAsync()
    {
        _closing = await ClosingAgency.CreateAsync(database);
        _team = _closing.Team;
        _session = Assert.Single(ClosingAgency.Must(await _closing.LogAsync(Tuesday)).Sessions);
        await Agency.ChangeAsync<SessionRow>(s => s.Id == _session, s => s.Note = Words);
        await AddPracticeAsync();
        await AddReportAsync();
        await AddFamilyAsync();
        await _closing.CloseAsync();
    }

    public ValueTask DisposeAsync() => _closing.DisposeAsync();

    private async Task AddPracticeAsync()
    {
        var practised = await TestPractice.CreateAsync(Agency, _team);
        var record = practised.Record();
        await Agency.AddAsync(new RoutinePictureRow { LearnerId = _team.Wren, RoutineId = record.Routine, Kind = PictureKind.Cue, Jpeg = [0xFF, 0xD8], Width = 1, Height = 1, Words = Words, RecordedAt = Instant.FromUtc(2026, 9, 1, 12, 0) });
        var practice = await Agency.AddAsync(new PracticeRow
        {
            Id = record.Id,
            LearnerId = _team.Wren,
            RoutineId = record.Routine,
            VersionId = record.Version,
            ProviderId = _team.Odalys,
            StartedAt = record.StartedAt,
            EndedAt = record.EndedAt,
            OnDay = Tuesday,
            Record = $$"""{"note": "{{Words}}"}""",
        });
        var probe = await Agency.AddAsync(new ProbeRow
        {
            Id = Guid.CreateVersion7(),
            LearnerId = _team.Wren,
            GoalId = _team.Gaze.Id,
            ProviderId = _team.Odalys,
            OnDay = Tuesday,
            Value = 50,
            Opportunities = 8,
            Conditions = Words,
            PracticeId = practice.Id,
        });
        var request = await Agency.AddAsync(new RecordRequestRow
        {
            LearnerId = _team.Wren,
            Kind = RequestKind.Amend,
            ReceivedOn = Tuesday,
            AskedBy = "Ines Belmares",
            Words = "amend it",
            EnteredBy = _team.Marisol,
            Answer = RequestAnswer.Amended,
            AnsweredOn = Tuesday,
            AnsweredBy = _team.Marisol,
            AnswerWords = "amended",
        });
        await Agency.AddAsync(new ParentStatementRow { LearnerId = _team.Wren, RequestId = request.Id, About = StatementAbout.Probe, ProbeId = probe.Id, Words = Words, GivenBy = "Ines Belmares", GivenOn = Tuesday, EnteredBy = _team.Marisol });
    }

    private async Task AddReportAsync()
    {
        var report = await Agency.AddAsync(new ReportRow { LearnerId = _team.Wren, PeriodId = _team.Period.Id, BegunBy = _team.Odalys, Hash = new string('0', 64) });
        await Agency.AddAsync(new ReportGoalRow { LearnerId = _team.Wren, ReportId = report.Id, GoalId = _team.Gaze.Id, Words = Words });
        await Agency.AddAsync(new ReportPartRow { LearnerId = _team.Wren, ReportId = report.Id, GoalId = _team.Gaze.Id, PersonId = _team.Odalys, Words = Words });
    }

    private async Task AddFamilyAsync()
    {
        await Agency.AddAsync(new FamilyRemarkRow { LearnerId = _team.Wren, Kind = RemarkKind.Other, Words = Words, SaidBy = "Ines Belmares", SaidOn = Tuesday, EnteredBy = _team.Marisol });
        await Agency.AddAsync(new FamilySummaryRow { LearnerId = _team.Wren, FirstDay = Tuesday, LastDay = Tuesday, BegunBy = _team.Marisol, Content = new SummaryContent(new(Words), new(), new(Words), new(), new(), []).Write() });
    }

    [Fact]
    public async Task Nothing_goes_without_a_rule_a_notice_and_two_people_and_what_goes_is_gone_from_the_trail_too()
    {
        Assert.Equal(0, await ProposeAsync());
        await GoToAsync(2040, 1, 10);
        Assert.Equal(0, await ProposeAsync()); // by default nothing, however old
        ClosingAgency.Must(await RuleAsync(RecordKind.Notes, 5));
        await GoToAsync(2031, 9, 14);
        Assert.Equal(0, await ProposeAsync());
        await GoToAsync(2031, 9, 15);
        Assert.Equal(1, await ProposeAsync());
        Assert.Equal(0, await ProposeAsync()); // once

        var proposed = Assert.Single((await PageAsync()).All);
        Assert.Equal((RecordKind.Notes, Tuesday, 1, DestructionStage.Proposed), (proposed.Kind, proposed.UpTo, proposed.Found, proposed.Stage));
        Assert.Contains("told", Problem(await AgreeAsync(proposed)), StringComparison.Ordinal);
        var told = ClosingAgency.Must(await Agency.Get<TellFamily>().RunAsync(await _closing.CallerAsync(_team.Marisol), Guid.CreateVersion7(),
            new() { Learner = _team.Wren, NoticeOn = new(2031, 9, 15), ToWhom = "Ines Belmares", Way = "by post" }));
        Assert.Equal(new LocalDate(2031, 11, 14), told.WaitUntil);
        await GoToAsync(2031, 11, 13);
        Assert.NotEmpty((await AgreeAsync(await OpenAsync())).Problems);
        await GoToAsync(2031, 11, 14);
        Assert.Contains("director", Problem(await DestroyAsync(await OpenAsync(), _team.Marisol)), StringComparison.Ordinal);
        ClosingAgency.Must(await AgreeAsync(await OpenAsync()));
        Assert.Contains("somebody else", Problem(await DestroyAsync(await OpenAsync(), _closing.Director)), StringComparison.Ordinal);
        Assert.Equal(1, ClosingAgency.Must(await DestroyAsync(await OpenAsync(), _team.Marisol)).Entries);

        var session = await _closing.ReadAsync(db => Task.FromResult(db.Sessions.Single(s => s.Id == _session)));
        Assert.Equal((null, 30, Tuesday), (session.Note, session.Credited, session.OnDay)); // the attendance stays
        Assert.DoesNotContain("sessions", await TablesWithAsync("sessions"));
        var over = Assert.Single((await PageAsync()).All);
        Assert.Equal((DestructionStage.Destroyed, 1, "Marisol Quenby", "Solveig Harrow"), (over.Stage, over.Destroyed, over.EndedBy, over.AgreedBy));
        await FitsAsync(over.Emptied!.Value);
        await NamesForgeryAsync(over.Id);
    }

    [Fact]
    public async Task What_a_family_asks_for_is_gone_from_every_table_and_the_sealed_count_still_fits()
    {
        Assert.NotEmpty(await TablesWithAsync(null));
        foreach (var kind in Enum.GetValues<RecordKind>())
        {
            ClosingAgency.Must(await AskAsync(kind));
            ClosingAgency.Must(await AgreeAsync(await OpenAsync()));
            Assert.True(ClosingAgency.Must(await DestroyAsync(await OpenAsync(), _team.Marisol)).Entries > 0, $"{kind}");
        }

        Assert.Equal([], await TablesWithAsync(null));
        var page = await PageAsync();
        Assert.All(page.Counts, c => Assert.Equal((c.Kind, 0), c));
        await FitsAsync(page.All.Sum(d => d.Emptied!.Value));
        Assert.Equal("There is nothing of that part up to that day.", Problem(await AskAsync(RecordKind.Probes)));
    }

    [Fact]
    public async Task Hold_open_request_and_quiet_each_keep_the_record()
    {
        ClosingAgency.Must(await RuleAsync(RecordKind.Probes, 5));
        ClosingAgency.Must(await AskAsync(RecordKind.Notes));
        ClosingAgency.Must(await AgreeAsync(await OpenAsync()));
        await GoToAsync(2033, 1, 10);

        var hold = await Agency.AddAsync(new RecordHoldRow { LearnerId = _team.Wren, FromDay = Tuesday, ToDay = Tuesday, Reason = "a complaint", SetBy = _closing.Director });
        await KeptAsync("hold");
        ClosingAgency.Must(await Agency.Get<EndRecordHold>().RunAsync(await _closing.CallerAsync(_closing.Director), Guid.CreateVersion7(), new() { Learner = _team.Wren, Hold = hold.Id, Version = 1, Word = "settled" }));
        var request = await Agency.AddAsync(new RecordRequestRow { LearnerId = _team.Wren, Kind = RequestKind.See, ReceivedOn = Tuesday, AskedBy = "Ines Belmares", Words = "a copy first", EnteredBy = _team.Marisol });
        await KeptAsync("99.10(e)");
        ClosingAgency.Must(await Agency.Get<AnswerRequest>().RunAsync(await _closing.CallerAsync(_team.Marisol), Guid.CreateVersion7(),
            new() { Learner = _team.Wren, Request = request.Id, Version = 1, Answer = RequestAnswer.Copied, AnsweredOn = Tuesday, Words = "copies given" }));
        await Agency.AddAsync(new QuietRow { LearnerId = _team.Wren, Reason = "hospice", NamedBy = "Ines Belmares", SetBy = _team.Marisol, SetAt = Instant.FromUtc(2033, 1, 9, 12, 0) });
        await KeptAsync("quiet");
    }

    private async Task KeptAsync(string why)
    {
        Assert.Contains(why, Problem(await DestroyAsync(await OpenAsync(), _team.Marisol)), StringComparison.OrdinalIgnoreCase);
        Assert.Equal(0, await ProposeAsync());
        Assert.Equal("TC014", await RawAsync());
    }

    /// <summary>What the database's own function answers, past the portal's own question.</summary>
    private async Task<string?> RawAsync()
    {
        var open = await OpenAsync();
        await using var work = await Agency.Portal.OpenAsync(Scope.WholeAgency(await _closing.CallerAsync(_team.Marisol), "a test"), System.Data.IsolationLevel.ReadCommitted, stop: Stop);
        await using var command = new NpgsqlCommand("select portal.destroy_records($1)", work.Connection) { Parameters = { new() { Value = open.Id } } };
        return (await Assert.ThrowsAsync<PostgresException>(() => command.ExecuteScalarAsync(Stop))).SqlState;
    }

    // Other test classes write on the same server: their running transactions make a sealer wait, as they should.
    private async Task<VerifyChanges.Answer> SealAllAsync()
    {
        VerifyChanges.Answer answer;
        do
        {
            await Agency.Get<SealChanges>().RunAsync(Agency.Id, Stop);
            answer = await _closing.VerifyBlocksAsync();
        }
        while (answer is { Unsealed: > 0, Misfit: null });
        return answer;
    }

    private async Task FitsAsync(int emptied)
    {
        Assert.True(emptied > 0);
        var blocks = await SealAllAsync();
        Assert.Equal((null, true), (blocks.Misfit, blocks.Blocks > 0));
        Assert.True(blocks.Emptied > 0);
        var counts = await _closing.VerifyAsync();
        Assert.Equal((null, 0, 1), (counts.Misfit, counts.Differences.Count, counts.Statements));
    }

    /// <summary>Whoever alters the trail as the database's owner and calls it a destruction is found.</summary>
    private async Task NamesForgeryAsync(int destruction)
    {
        const string One = "(select min(id) from portal.changes where destruction_id is null and table_name = 'relations' and agency_id = ";
        foreach (var (said, named) in new[] { (destruction, "are not those that it emptied"), (999_999, "of which the trail knows nothing") })
        {
            await _closing.AsOwnerAsync($"create table kept as select * from portal.changes where id = {One}{Agency.Id})");
            await _closing.AsOwnerAsync($"update portal.changes set before = null, after = null, destruction_id = {said} where id = {One}{Agency.Id})");
            Assert.Contains(named, (await _closing.VerifyBlocksAsync()).Misfit, StringComparison.Ordinal);
            await _closing.AsOwnerAsync("update portal.changes c set before = k.before, after = k.after, destruction_id = null from kept k where k.id = c.id; drop table kept");
        }
        Assert.Null((await _closing.VerifyBlocksAsync()).Misfit);
    }

    /// <summary>Tables that hold the words, or whose changes do.</summary>
    /// <param name="only">Of the trail, the changes of this table only; null for all tables.</param>
    private async Task<List<string>> TablesWithAsync(string? only)
    {
        await using var connection = new NpgsqlConnection(database.ConnectionString() + ";Pooling=false");
        await connection.OpenAsync(Stop);
        var found = new List<string>();
        foreach (var table in await ListAsync(connection, "select tablename from pg_tables where schemaname = 'portal' and tablename <> 'migrations'"))
        {
            var which = table switch { "agencies" => "id", _ => "agency_id" };
            found.AddRange(await ListAsync(connection, $"""
                select distinct {(table == "changes" ? "t.table_name" : $"'{table}'")} from portal.{table} t where t.{which} = {Agency.Id} and t::text like '%{Words}%'
                """));
        }
        return only is null ? found : [.. found.Where(t => t == only)];
    }

    private static async Task<List<string>> ListAsync(NpgsqlConnection connection, string sql)
    {
        await using var command = new NpgsqlCommand(sql, connection);
        await using var rows = await command.ExecuteReaderAsync(Stop);
        var all = new List<string>();
        while (await rows.ReadAsync(Stop))
            all.Add(rows.GetString(0));
        return all;
    }

    private Task GoToAsync(int year, int month, int day)
    {
        Agency.Clock.AdjustTime(new DateTimeOffset(year, month, day, 20, 0, 0, TimeSpan.Zero));
        return Task.CompletedTask;
    }

    private Task<int> ProposeAsync() => Agency.Get<ProposeDestructions>().RunAsync(Agency.Id, Stop);

    private async Task<LearnerRetentionPage> PageAsync() => (await Agency.Get<ReadRetention>().OfLearnerAsync(await _closing.CallerAsync(_team.Marisol), _team.Wren, Stop))!;

    private async Task<DestructionShown> OpenAsync() => Assert.Single((await PageAsync()).All, d => d.Stage is not (DestructionStage.Destroyed or DestructionStage.Stopped));

    private async Task<Outcome<SetRetention.Saved>> RuleAsync(RecordKind kind, int years) => await Agency.Get<SetRetention>().RunAsync(
        await _closing.CallerAsync(_closing.Director), Guid.CreateVersion7(), new() { Kind = kind, Years = years, From = CountedFrom.RecordMade, NoticeDays = 60, Reason = "the agency's own schedule" }, Stop);

    private async Task<Outcome<AskDestruction.Saved>> AskAsync(RecordKind kind)
    {
        var caller = await _closing.CallerAsync(_team.Marisol);
        return await Agency.Get<AskDestruction>().RunAsync(caller, Guid.CreateVersion7(), new() { Learner = _team.Wren, Kind = kind, AskedBy = "Ines Belmares", AskedOn = caller.Today, UpTo = caller.Today }, Stop);
    }

    private async Task<Outcome<AgreeDestruction.Saved>> AgreeAsync(DestructionShown d) => await Agency.Get<AgreeDestruction>().RunAsync(
        await _closing.CallerAsync(_closing.Director), Guid.CreateVersion7(), new() { Learner = _team.Wren, Destruction = d.Id, Version = d.Version }, Stop);

    private async Task<Outcome<DestroyRecords.Saved>> DestroyAsync(DestructionShown d, int by) => await Agency.Get<DestroyRecords>().RunAsync(
        await _closing.CallerAsync(by), Guid.CreateVersion7(), new() { Learner = _team.Wren, Destruction = d.Id, Version = d.Version }, Stop);

    private static string Problem<T>(Outcome<T> outcome) where T : class => Assert.Single(outcome.Problems).Message;
}
