using Microsoft.EntityFrameworkCore;
using NodaTime;
using Npgsql;
using TeamCircle.Core.People;
using TeamCircle.Data.History;
using TeamCircle.Data.Learners;
using TeamCircle.Data.People;
using TeamCircle.Testing;
using TeamCircle.Testing.Postgres;

namespace TeamCircle.Data.Tests.History;

/// <summary>Who is let in, how far, and what stands of it in the record of access.</summary>
public sealed class OpenRecordTests(TestDatabase database) : IClassFixture<TestDatabase>
{
    private static CancellationToken Stop => TestContext.Current.CancellationToken;

    [Fact]
    public async Task Team_member_reaches_their_learners_and_it_is_recorded_with_the_relation()
    {
        await using var agency = await TestAgency.CreateAsync(database, "R1");
        var (wren, jonah) = (await LearnerAsync(agency, "WREN"), await LearnerAsync(agency, "JONAH"));
        var bram = await PersonAsync(agency, Role.Provider, wren, Relation.Substitute);

        var opened = await OpenAsync(agency, bram, Subject.Learner, $"{wren}", Ground.Team);

        Assert.Equal((Opening.Granted, Wall.Person, (int?)wren), (opened.Answer, opened.Scope!.Wall, opened.Learner));
        Assert.DoesNotContain(jonah, opened.Scope.Learners);
        var row = Assert.Single(await RowsAsync(agency));
        Assert.Equal((bram, "substitute", "GET /Learners/Learner", false, false), (row.PersonId, row.Ground, row.Page, row.WholeAgency, row.Refused));
        Assert.Equal([wren], row.LearnerIds);
    }

    [Fact]
    public async Task Refusal_is_recorded_with_the_learner_it_was_about()
    {
        await using var agency = await TestAgency.CreateAsync(database, "R2");
        var (wren, jonah) = (await LearnerAsync(agency, "WREN"), await LearnerAsync(agency, "JONAH"));
        var bram = await PersonAsync(agency, Role.Provider, wren, Relation.Team);

        var forbidden = await OpenAsync(agency, bram, Subject.Learner, $"{jonah}", Ground.Team);
        var absent = await OpenAsync(agency, bram, Subject.Learner, "99999999", Ground.Team);
        var nonsense = await OpenAsync(agency, bram, Subject.Visit, "not-an-id", Ground.Team);

        Assert.All([forbidden, absent, nonsense], o => Assert.Equal(new Opened(Opening.Refused), o));
        var rows = await RowsAsync(agency);
        Assert.All(rows, r => Assert.True(r.Refused));
        Assert.Equal([[jonah], [], []], rows.Select(r => r.LearnerIds));
    }

    [Fact]
    public async Task Administrator_is_asked_why_and_the_reason_stands_in_the_record()
    {
        await using var agency = await TestAgency.CreateAsync(database, "R3");
        var wren = await LearnerAsync(agency, "WREN");
        var dele = await PersonAsync(agency, Role.Administrator);

        var asked = await OpenAsync(agency, dele, Subject.Learner, $"{wren}", Ground.Team, Ground.AdministratorReason);
        Assert.Equal(Opening.NeedsReason, asked.Answer);
        Assert.Empty(await RowsAsync(agency)); // nothing was shown

        var opened = await agency.Get<OpenRecord>().RunAsync(
            (await agency.CallerAsync(dele))!, new("GET /Learners/Learner", Subject.Learner, $"{wren}", [Ground.AdministratorReason], "the family asked"), Stop);
        Assert.Equal((Opening.Granted, Wall.Agency), (opened.Answer, opened.Scope!.Wall));
        Assert.Equal("administrator: the family asked", Assert.Single(await RowsAsync(agency)).Ground);
    }

    [Fact]
    public async Task Administrator_is_not_told_by_the_question_why_whether_an_id_exists()
    {
        await using var agency = await TestAgency.CreateAsync(database, "R4");
        var dele = await PersonAsync(agency, Role.Administrator);

        Assert.Equal(Opening.Refused, (await OpenAsync(agency, dele, Subject.Learner, "99999999", Ground.AdministratorReason)).Answer);
    }

    [Fact]
    public async Task List_names_the_learners_that_were_in_reach_or_the_whole_agency()
    {
        await using var agency = await TestAgency.CreateAsync(database, "R5");
        var wren = await LearnerAsync(agency, "WREN");
        await LearnerAsync(agency, "JONAH");
        var marisol = await PersonAsync(agency, Role.CaseManager, wren, Relation.CaseManager);
        var dele = await PersonAsync(agency, Role.Administrator);

        await OpenAsync(agency, marisol, Subject.Learners, null, Ground.Administrator, Ground.Staff);
        await OpenAsync(agency, dele, Subject.Learners, null, Ground.Administrator, Ground.Staff);

        var rows = await RowsAsync(agency);
        Assert.Equal((false, 1), (rows[0].WholeAgency, rows[0].LearnerIds.Length));
        Assert.Equal((true, 0), (rows[1].WholeAgency, rows[1].LearnerIds.Length));
    }

    [Fact]
    public async Task Relation_that_has_ended_opens_nothing_and_one_that_ends_today_still_does()
    {
        await using var agency = await TestAgency.CreateAsync(database, "R6");
        var (wren, jonah) = (await LearnerAsync(agency, "WREN"), await LearnerAsync(agency, "JONAH"));
        var bram = await PersonAsync(agency, Role.Provider, wren, Relation.Team, lastDay: agency.Day(10, 1));
        await agency.AddAsync(new RelationRow { LearnerId = jonah, PersonId = bram, Kind = Relation.Team, FromDay = agency.Day(9, 1), ToDay = agency.Day(10, 2) });

        Assert.Equal(Opening.Refused, (await OpenAsync(agency, bram, Subject.Learner, $"{wren}", Ground.Team)).Answer);
        Assert.Equal(Opening.Granted, (await OpenAsync(agency, bram, Subject.Learner, $"{jonah}", Ground.Team)).Answer);
    }

    [Fact]
    public async Task Nothing_is_granted_where_the_record_cannot_be_written()
    {
        await using var agency = await TestAgency.CreateAsync(database, "R7");
        var wren = await LearnerAsync(agency, "WREN");
        var bram = await PersonAsync(agency, Role.Provider, wren, Relation.Team);
        await AsOwnerAsync("revoke insert on portal.accesses from teamcircle_agency");
        try
        {
            await Assert.ThrowsAsync<DbUpdateException>(() => OpenAsync(agency, bram, Subject.Learner, $"{wren}", Ground.Team));
        }
        finally
        {
            await AsOwnerAsync("grant insert on portal.accesses to teamcircle_agency");
        }
        Assert.Empty(await RowsAsync(agency));
    }

    private async Task AsOwnerAsync(string sql)
    {
        await using var connection = new NpgsqlConnection(database.ConnectionString() + ";Pooling=false");
        await connection.OpenAsync(Stop);
        await using var command = new NpgsqlCommand(sql, connection);
        await command.ExecuteNonQueryAsync(Stop);
    }

    private static async Task<Opened> OpenAsync(TestAgency agency, int person, Subject subject, string? id, params Ground[] grounds) =>
        await agency.Get<OpenRecord>().RunAsync(
            (await agency.CallerAsync(person))!, new("GET /Learners/Learner", subject, id, grounds, null), Stop);

    private static Task<List<AccessRow>> RowsAsync(TestAgency agency) =>
        agency.Portal.ReadAsync(agency.WholeAgency, db => db.Accesses.Where(a => a.AgencyId == agency.Id).OrderBy(a => a.Id).ToListAsync(), Stop);

    private static async Task<int> LearnerAsync(TestAgency agency, string code) =>
        (await agency.AddAsync(new LearnerRow { Code = code, Name = code, MostMinutesADay = 90 })).Id;

    private static async Task<int> PersonAsync(TestAgency agency, Role role, int? learner = null, Relation relation = default, LocalDate? lastDay = null)
    {
        var person = await agency.AddAsync(new PersonRow { Email = $"{Guid.CreateVersion7()}@tallowfern.example", Name = $"{role}" });
        await agency.AddAsync(new PersonRoleRow { PersonId = person.Id, Role = role, FromDay = agency.Day(8, 1) });
        if (learner is { } one)
            await agency.AddAsync(new RelationRow { LearnerId = one, PersonId = person.Id, Kind = relation, FromDay = agency.Day(8, 1), ToDay = lastDay });
        return person.Id;
    }
}
