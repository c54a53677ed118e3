using System.Data;
using Microsoft.EntityFrameworkCore;
using NodaTime;
using Npgsql;
using TeamCircle.Core;
using TeamCircle.Core.Cases;
using TeamCircle.Core.Closing;
using TeamCircle.Core.Learners;
using TeamCircle.Data.Closing;
using TeamCircle.Data.Devices;
using TeamCircle.Data.Sessions;
using TeamCircle.Testing;
using TeamCircle.Testing.Postgres;

namespace TeamCircle.Data.Tests.Closing;

public sealed class ClosePeriodTests(TestDatabase database) : IClassFixture<TestDatabase>, IAsyncLifetime
{
    private ClosingAgency _agency = null!;

    private TestTeam Team => _agency.Team;

    public async ValueTask InitializeAsync() => _agency = await ClosingAgency.CreateAsync(database);

    public ValueTask DisposeAsync() => _agency.DisposeAsync();

    private Task<List<StatementRow>> StatementsAsync() => _agency.ReadAsync(db => db.Statements.OrderBy(s => s.Edition).ToListAsync());

    private Task<List<SealedLineRow>> LinesAsync(int statement) =>
        _agency.ReadAsync(db => db.SealedLines.Where(l => l.StatementId == statement).OrderBy(l => l.Position).ToListAsync());

    [Fact]
    public async Task Closing_seals_every_line_once_with_inputs_that_anybody_can_work_out()
    {
        Assert.Empty((await _agency.LogAsync(new(2026, 9, 16))).Problems);
        var count = await _agency.CountAsync();
        await _agency.CloseAsync();

        var statement = Assert.Single(await StatementsAsync());
        var lines = await LinesAsync(statement.Id);
        Assert.Equal([(Team.Vision.Id, (int?)null), (null, Team.Gaze.Id)], lines.Select(l => (l.ServiceId, l.GoalId)));
        Assert.All(lines, l => Assert.Equal(l.Answer, CanonicalJson.Of(CaseFile.WorkOut(l.Inputs))));
        Assert.Equal(statement.Hash, statement.Sealed([.. lines.Select(l => l.Sealed)]).Hash());
        Assert.Equal(count.Ledger.Lines.Select(l => l.Working.Balance.Minutes.Lack), (await _agency.CountAsync()).Sealed.Select(s => s.Lack));
        // Nine weeks of 60 minutes, one visit of 30: 510 lack, all of it undecided, and all of it is brought forward.
        Assert.Equal(510, (await _agency.ReadAsync(db => db.Debts.Where(d => d.ServiceId == Team.Vision.Id && d.Live).SumAsync(d => d.Undecided))));
        Assert.Equal((await _agency.VerifyBlocksAsync()).LastHash, statement.BlockHash);
        Assert.Equal((1, 2, null, 0), Summary(await _agency.VerifyAsync()));
    }

    [Fact]
    public async Task Count_of_a_period_that_still_runs_is_read_with_the_space_that_other_visits_leave_and_closes_for_nobody()
    {
        await using var agency = await ClosingAgency.CreateAsync(database, new(2026, 10, 5));
        var motor = await agency.Team.ServiceAsync(agency.Team.Wren, Discipline.OccupationalTherapy, agency.Team.Bram);
        foreach (var day in new[] { 7, 8, 13, 14, 15 })
            await agency.Team.VisitAsync(motor, agency.Team.Bram, new(2026, 10, day), minutes: 120);

        var count = await agency.CountAsync();

        Assert.Null(count.Mark);
        Assert.NotNull(count.Ledger.Lines.Single(l => l.Line.Id == agency.Team.Vision.Id && !l.Line.IsProbes).Working.Balance.SpaceLeft);
        Assert.NotEmpty((await agency.CloseAsync(count)).Problems);
        Assert.Empty(await agency.ReadAsync(db => db.Statements.ToListAsync()));
    }

    [Fact]
    public async Task A_count_closes_once_for_its_case_manager_as_it_was_read_and_with_a_word_on_everything()
    {
        var count = await _agency.CountAsync();
        Assert.Contains(count.Obstacles, o => o.Obstacle.Kind == ObstacleKind.Undecided && o.Obstacle.Service == Team.Vision.Id);

        Assert.Contains(Problem.NotFound, (await _agency.CloseAsync(count, by: Team.Odalys)).Problems);
        Assert.Equal(count.Obstacles.Count, (await _agency.CloseAsync(count, words: [])).Problems.Count(p => p.Field.StartsWith("Why[", StringComparison.Ordinal)));
        Assert.Empty((await _agency.LogAsync(new(2026, 9, 16))).Problems);
        Assert.Contains("changed since", Assert.Single((await _agency.CloseAsync(count)).Problems).Message, StringComparison.Ordinal);
        await _agency.CloseAsync();
        Assert.Contains("closed already", Assert.Single((await _agency.CloseAsync(await _agency.CountAsync())).Problems).Message, StringComparison.Ordinal);
        Assert.Single(await StatementsAsync());
    }

    [Fact]
    public async Task A_closed_count_refuses_in_the_database_what_it_rests_on()
    {
        Assert.Empty((await _agency.LogAsync(new(2026, 9, 16))).Problems);
        await _agency.CloseAsync();
        string[] refused =
        [
            "update portal.sessions set credited = 20",
            "update portal.service_versions set quantity = 30",
            "update portal.service_versions set assistants_count = true",
            "update portal.services set to_day = '2026-10-01'",
            "update portal.probe_commitments set probes = 5",
            "update portal.goal_owners set live = false, taken_back_reason = 'x'",
            "update portal.periods set end_day = '2026-10-09'",
            "insert into portal.closures (agency_id, on_day, name, kind, live) select id, '2026-09-17', 'Snow', 'Published', true from portal.agencies",
        ];
        foreach (var sql in refused)
            Assert.Equal((sql, "TC001"), (sql, await RefusalAsync(sql)));
        string[] neverChanged = ["update portal.statements set hash = hash", "delete from portal.statements", "update portal.sealed_lines set answer = answer", "delete from portal.sealed_lines"];
        foreach (var sql in neverChanged)
            Assert.Equal(PostgresErrorCodes.InsufficientPrivilege, await RefusalAsync(sql));
        // What makes no difference to the count, or a difference after it alone, passes.
        Assert.Null(await RefusalAsync("update portal.services set to_day = '2027-04-30'"));
        Assert.Null(await RefusalAsync("update portal.services set position = 9"));
    }

    [Fact]
    public async Task What_arrives_late_is_set_aside_taken_in_by_a_restatement_and_a_row_altered_past_the_portal_is_named()
    {
        Assert.Empty((await _agency.LogAsync(new(2026, 9, 16))).Problems);
        var practice = await TestPractice.CreateAsync(_agency.Agency, Team);
        var device = await practice.DeviceAsync(Team, Team.Odalys);
        var first = await _agency.CloseAsync();
        var visit = TestPractice.Sent("visit", new { services = new[] { Team.Vision.Id }, onDay = "2026-09-23", outcome = "given", start = "9:00", end = "9:30" }, null);
        var answer = Assert.Single((await _agency.Agency.Get<SyncOperations>().RunAsync(await _agency.CallerAsync(Team.Odalys), device, [visit]))!);
        Assert.Equal(OperationEnd.SetAside, answer.End);
        var aside = await _agency.ReadAsync(db => db.SetAsides.SingleAsync(s => s.ClosedAt == null));

        var restated = ClosingAgency.Must(await _agency.RestateAsync(first, new RestatePeriod.Aside(aside.Id, aside.Version)));

        Assert.Equal(2, restated.Edition);
        var statements = await StatementsAsync();
        Assert.Equal([(1, (int?)null), (2, first)], statements.Select(s => (s.Edition, s.RestatesId)));
        Assert.Equal(30, GivenIn(await LinesAsync(first)));
        Assert.Equal(60, GivenIn(await LinesAsync(restated.Statement)));
        Assert.Equal((2, 4, null, 0), Summary(await _agency.VerifyAsync()));
        Assert.Contains("Somebody restated", Assert.Single((await _agency.RestateAsync(first, new RestatePeriod.Aside(aside.Id, aside.Version))).Problems).Message, StringComparison.Ordinal);

        var session = await _agency.ReadAsync(db => db.Sessions.Where(s => s.OnDay == new LocalDate(2026, 9, 16)).Select(s => s.Id).SingleAsync());
        await _agency.AsOwnerAsync($"set session_replication_role = replica; update portal.sessions set credited = 45 where id = '{session}'");
        var verified = await _agency.VerifyAsync();
        Assert.Contains($"sessions {session}", verified.Misfit, StringComparison.Ordinal);
        var difference = Assert.Single(verified.Differences, d => d.Figure == "given");
        Assert.Equal(("60", "75", 0), (difference.Sealed, difference.Today, difference.Changes.Count));
    }

    [Fact]
    public async Task A_visit_is_corrected_in_a_closed_count_by_a_restatement_alone()
    {
        Assert.Empty((await _agency.LogAsync(new(2026, 9, 16))).Problems);
        var first = await _agency.CloseAsync();
        var session = await _agency.ReadAsync(db => db.Sessions.SingleAsync(s => s.Live));
        var marisol = await _agency.CallerAsync(Team.Marisol);
        var shorter = new CorrectSession.Input { Session = session.Id, Start = "9:00", End = "9:20", Why = "She fell asleep." };
        Assert.Contains("closed", Assert.Single((await _agency.Agency.Get<CorrectSession>().RunAsync(marisol, Guid.CreateVersion7(), shorter)).Problems).Message, StringComparison.Ordinal);
        var day = new LocalDate(2026, 9, 16);
        Assert.Equal(Team.Period.Id, (await _agency.Agency.Get<ReadCount>().ClosedOnAsync(marisol, Scope.Of(marisol), Team.Wren, day))!.Period.Id);
        Assert.Equal(session.VisitId, Assert.Single(await _agency.Agency.Get<ReadCount>().VisitsAsync(marisol, Scope.Of(marisol), Team.Wren, Team.Period.Id)).Id);

        // What is refused leaves both as they were.
        Assert.NotEmpty((await _agency.RestateAsync(first, shorter with { Why = " " })).Problems);
        var restated = ClosingAgency.Must(await _agency.RestateAsync(first, shorter));

        Assert.Equal((30, 20), (GivenIn(await LinesAsync(first)), GivenIn(await LinesAsync(restated.Statement))));
        var stands = await _agency.ReadAsync(db => db.Sessions.SingleAsync(s => s.Live));
        Assert.Equal((session.Id, "She fell asleep."), (stands.Replaces, stands.CorrectionReason));
        Assert.Equal((2, 4, null, 0), Summary(await _agency.VerifyAsync()));
        Assert.Null(await _agency.Agency.Get<ReadCount>().ClosedOnAsync(marisol, Scope.Of(marisol), Team.Wren, new(2026, 10, 20)));
    }

    [Fact]
    public async Task A_sealed_line_altered_past_the_portal_is_named()
    {
        var statement = await _agency.CloseAsync();
        await _agency.AsOwnerAsync($"set session_replication_role = replica; update portal.sealed_lines set answer = replace(answer, '\"given\":0', '\"given\":9') where statement_id = {statement} and position = 0");
        Assert.Contains($"line 0 (sealed_lines ", (await _agency.VerifyAsync()).Misfit, StringComparison.Ordinal);

        await _agency.AsOwnerAsync($"set session_replication_role = replica; update portal.sealed_lines set answer = replace(answer, '\"given\":9', '\"given\":0') where statement_id = {statement}; update portal.statements set credential = 'another'");
        Assert.Contains($"statement {statement}", (await _agency.VerifyAsync()).Misfit, StringComparison.Ordinal);

        await _agency.AsOwnerAsync($"set session_replication_role = replica; delete from portal.sealed_lines where statement_id = {statement}; delete from portal.statements where id = {statement}");
        Assert.StartsWith($"Missing: statement {statement}", (await _agency.VerifyAsync()).Misfit, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Opening_again_takes_a_second_person_and_closing_again_is_the_next_edition()
    {
        await _agency.CloseAsync();
        Assert.Contains("closed", Assert.Single((await _agency.LogAsync(new(2026, 9, 16))).Problems).Message, StringComparison.Ordinal);
        ClosingAgency.Must(await _agency.Agency.Get<AskToReopen>().RunAsync(
            await _agency.CallerAsync(Team.Marisol), Guid.CreateVersion7(), new() { Learner = Team.Wren, Period = Team.Period.Id, Reason = "A visit was forgotten." }));
        Assert.Contains(Problem.NotFound, (await _agency.AnswerAsync(Team.Marisol)).Problems);
        ClosingAgency.Must(await _agency.AnswerAsync(_agency.Director, grant: false));
        Assert.True((await _agency.CountAsync()).IsClosed);

        await _agency.ReopenAsync();
        Assert.Equal(0, await _agency.ReadAsync(db => db.Debts.CountAsync(d => d.Live)));
        Assert.Empty((await _agency.LogAsync(new(2026, 9, 16))).Problems);
        await _agency.CloseAsync();

        var second = (await StatementsAsync())[^1];
        Assert.Equal((2, "A visit stands on the wrong day.", _agency.Director), (second.Edition, second.Reason, second.ReopenedBy!.Value));
        Assert.Equal((2, 4, null, 0), Summary(await _agency.VerifyAsync()));
    }

    [Fact]
    public async Task A_make_up_given_later_pays_what_was_brought_forward_and_the_sealed_figures_stay()
    {
        Assert.Empty((await _agency.LogAsync(new(2026, 9, 16))).Problems);
        var first = await _agency.CloseAsync();
        Assert.Empty((await _agency.LogAsync(new(2026, 10, 20), pays: new(2026, 9, 16))).Problems);
        Assert.Equal((1, 2, null, 0), Summary(await _agency.VerifyAsync()));

        // A word that nobody is asked for again, since it was said for the edition before, holds on.
        var session = await _agency.ReadAsync(db => db.Sessions.Where(s => s.OnDay == new LocalDate(2026, 9, 16)).Select(s => s.Id).SingleAsync());
        ClosingAgency.Must(await _agency.RestateAsync(first, new() { Session = session, Start = "9:00", End = "9:25", Why = "She fell asleep." }, saysNothing: true));
        Assert.Equal(ClosingRules.Said((await _agency.CountAsync()).Editions[1].Left), ClosingRules.Said((await _agency.CountAsync()).Editions[0].Left));
    }

    private static int GivenIn(List<SealedLineRow> lines) => System.Text.Json.JsonDocument.Parse(lines[0].Answer).RootElement.GetProperty("given").GetInt32();

    private static (int, int, string?, int) Summary(VerifyStatements.Answer answer) => (answer.Statements, answer.Lines, answer.Misfit, answer.Differences.Count);

    /// <summary>The error code with which the database answers the application's role that reaches the whole agency; null where it obeys.</summary>
    private async Task<string?> RefusalAsync(string sql)
    {
        await using var work = await _agency.Agency.Portal.OpenAsync(_agency.Agency.WholeAgency, IsolationLevel.ReadCommitted);
        try
        {
            await work.Db.Database.ExecuteSqlRawAsync(sql);
            return null;
        }
        catch (PostgresException refused)
        {
            return refused.SqlState;
        }
    }
}
