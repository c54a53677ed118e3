using System.Data;
using Microsoft.EntityFrameworkCore;
using Npgsql;
using TeamCircle.Core;
using TeamCircle.Data.Devices;
using TeamCircle.Data.Learners;
using TeamCircle.Data.Rights;
using TeamCircle.Testing;
using TeamCircle.Testing.Postgres;

namespace TeamCircle.Data.Tests.Walls;

/// <summary>The second and third wall: what PostgreSQL itself shows, records and refuses.</summary>
public sealed class WallsTests(TestDatabase database) : IClassFixture<TestDatabase>
{
    private sealed record Answer(int Id);

    private static LearnerRow Learner(string code) => new() { Code = code, Name = "Wren Belmares", MostMinutesADay = 90 };

    [Fact]
    public async Task Person_reads_only_listed_learners_whatever_the_query_forgets()
    {
        await using var agency = await TestAgency.CreateAsync(database, "A1");
        var wren = await agency.AddAsync(Learner("WREN"));
        var jonah = await agency.AddAsync(Learner("JONAH"));

        var seen = await agency.Portal.ReadAsync(agency.Person(agency.Terminal, wren.Id), db => db.Learners.Select(l => l.Id).ToListAsync());

        Assert.Equal([wren.Id], seen);
        Assert.DoesNotContain(jonah.Id, seen);
    }

    private sealed record Pool(IDbContextFactory<PortalDb> Contexts);

    [Theory]
    [InlineData(false)]
    [InlineData(true)]
    public async Task Connection_comes_back_to_its_pool_as_it_was(bool fails)
    {
        await using var agency = await TestAgency.CreateAsync(database, fails ? "A2F" : "A2", ";Maximum Pool Size=1");
        await agency.AddAsync(Learner("WREN"));
        var worked = await agency.Portal.ReadAsync(agency.WholeAgency, db => db.Database.SqlQuery<string>($"select pg_backend_pid() || ' ' || current_user as \"Value\"").SingleAsync());
        if (fails)
            await Assert.ThrowsAsync<PostgresException>(() => agency.Portal.ReadAsync(agency.Person(agency.Terminal), db => db.Database.ExecuteSqlRawAsync("select 1 / 0")));
        else
            await agency.Portal.ReadAsync(agency.Person(agency.Terminal), db => db.Learners.CountAsync());

        await using var next = await agency.Get<Pool>().Contexts.CreateDbContextAsync();
        var found = await next.Database.SqlQuery<string>($"""
            select pg_backend_pid() || ' ' || current_user || ' ' || concat(current_setting('app.agency', true), current_setting('app.person', true),
                current_setting('app.learners', true), current_setting('app.ground', true), current_setting('app.operation', true)) as "Value"
            """).SingleAsync();

        Assert.EndsWith(" teamcircle_agency", worked, StringComparison.Ordinal);
        Assert.Equal(worked.Split(' ')[0] + " teamcircle_app ", found);
        Assert.Equal(0, await agency.Portal.ReadAsync(agency.Person(agency.Terminal), db => db.Learners.CountAsync()));
    }

    [Fact]
    public async Task Another_agency_sees_nothing_and_can_write_nothing_here()
    {
        await using var one = await TestAgency.CreateAsync(database, "A3");
        await using var other = await TestAgency.CreateAsync(database, "A4");
        await one.AddAsync(Learner("WREN"));

        Assert.Equal(0, await other.Portal.ReadAsync(other.WholeAgency, db => db.Learners.CountAsync()));
        await using var work = await other.Portal.OpenAsync(other.WholeAgency, IsolationLevel.ReadCommitted);
        var intruder = Learner("INTRUDER");
        intruder.AgencyId = one.Id;
        work.Db.Add(intruder);
        var refused = await Assert.ThrowsAsync<DbUpdateException>(() => work.Db.SaveChangesAsync());
        Assert.Equal("42501", ((PostgresException)refused.InnerException!).SqlState);
    }

    [Fact]
    public async Task Same_operation_twice_runs_once_and_answers_the_same()
    {
        await using var agency = await TestAgency.CreateAsync(database, "A5");
        var operation = Operation.Of(Guid.CreateVersion7(), "AddLearner", "WREN");
        async Task<Outcome<Answer>> Add(PortalDb db)
        {
            var row = Learner("WREN");
            row.AgencyId = agency.Id;
            db.Add(row);
            await db.SaveChangesAsync();
            return Outcome<Answer>.Of(new Answer(row.Id));
        }

        var first = await agency.Portal.WriteAsync(agency.WholeAgency, operation, Add);
        var again = await agency.Portal.WriteAsync(agency.WholeAgency, operation, Add);
        var other = await agency.Portal.WriteAsync(agency.WholeAgency, operation with { RequestHash = [1] }, Add);

        Assert.Equal(first.Value, again.Value);
        Assert.Contains("already saved with other content", Assert.Single(other.Problems).Message, StringComparison.Ordinal);
        Assert.Equal(1, await agency.Portal.ReadAsync(agency.WholeAgency, db => db.Learners.CountAsync()));
    }

    [Fact]
    public async Task Every_change_leaves_who_what_and_on_what_ground()
    {
        await using var agency = await TestAgency.CreateAsync(database, "A6");
        var wren = await agency.AddAsync(Learner("WREN"));

        var change = await agency.Portal.ReadAsync(agency.WholeAgency, db => db.Changes.SingleAsync(c => c.TableName == "learners"));

        Assert.Equal((agency.Terminal, "a test", wren.Id, "insert"), (change.PersonId, change.Ground, change.LearnerId, change.Act));
        Assert.Contains("\"code\": \"WREN\"", change.After!, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Trail_of_changes_cannot_be_written_or_altered_by_the_application()
    {
        await using var agency = await TestAgency.CreateAsync(database, "A7");
        foreach (var sql in new[] { "delete from portal.changes", "update portal.changes set ground = 'x'", "insert into portal.changes (agency_id) values (1)", "truncate portal.changes", "delete from portal.accesses", "delete from portal.sessions" })
        {
            await using var work = await agency.Portal.OpenAsync(agency.WholeAgency, IsolationLevel.ReadCommitted);
            var refused = await Assert.ThrowsAsync<PostgresException>(() => work.Db.Database.ExecuteSqlRawAsync(sql));
            Assert.Equal("42501", refused.SqlState);
        }
    }

    [Fact]
    public async Task Editing_an_older_version_is_refused_and_says_so()
    {
        await using var agency = await TestAgency.CreateAsync(database, "A8");
        var wren = await agency.AddAsync(Learner("WREN"));
        async Task<Outcome<Answer>> Rename(PortalDb db, string name)
        {
            var row = await db.Learners.SingleAsync(l => l.Id == wren.Id);
            db.Entry(row).Property(r => r.Version).OriginalValue = 1;
            row.Name = name;
            return Outcome<Answer>.Of(new Answer(row.Id));
        }

        var first = await agency.Portal.WriteAsync(agency.WholeAgency, Operation.Own("Rename"), db => Rename(db, "Wren B"));
        var second = await agency.Portal.WriteAsync(agency.WholeAgency, Operation.Own("Rename"), db => Rename(db, "Wren C"));

        Assert.NotNull(first.Value);
        Assert.Equal("Version", Assert.Single(second.Problems).Field);
    }

    [Fact]
    public async Task Every_table_of_the_portal_has_forced_walls_and_keys_and_references_that_lead_with_the_agency()
    {
        await using var bare = new NpgsqlConnection(database.ConnectionString());
        await bare.OpenAsync();
        const string offenders = """
            select c.relname from pg_class c join pg_namespace n on n.oid = c.relnamespace
            where n.nspname = 'portal' and c.relkind = 'r' and c.relname <> 'migrations'
              and not (c.relrowsecurity and c.relforcerowsecurity
                       and exists (select 1 from pg_policy p where p.polrelid = c.oid and p.polname = 'person'))
            union all
            select c.relname || ' key' from pg_index i join pg_class c on c.oid = i.indrelid join pg_namespace n on n.oid = c.relnamespace
            join pg_attribute a on a.attrelid = c.oid and a.attnum = i.indkey[0]
            where n.nspname = 'portal' and i.indisunique and c.relname not in ('migrations', 'agencies') and a.attname <> 'agency_id'
            union all
            -- What would keep agencies from lying on different servers (docs/scale.md): a reference or an exclusion that does not hold the agency on both sides.
            select c.conrelid::regclass || ' ' || c.conname from pg_constraint c join pg_namespace n on n.oid = c.connamespace
            left join pg_attribute own on own.attrelid = c.conrelid and own.attnum = c.conkey[1]
            left join pg_attribute other on other.attrelid = c.confrelid and other.attnum = c.confkey[1]
            where n.nspname = 'portal' and c.contype in ('f', 'x')
              and (own.attname is distinct from 'agency_id' or (c.contype = 'f' and c.confrelid <> 'portal.agencies'::regclass and other.attname is distinct from 'agency_id'))
            """;
        await using var command = new NpgsqlCommand(offenders, bare);
        await using var reader = await command.ExecuteReaderAsync();
        var found = new List<string>();
        while (await reader.ReadAsync())
            found.Add(reader.GetString(0));
        Assert.Empty(found);
    }

    [Fact]
    public async Task Every_column_has_a_class_and_no_class_is_of_a_column_that_is_no_more()
    {
        await using var bare = new NpgsqlConnection(database.ConnectionString() + ";Pooling=false");
        await bare.OpenAsync();
        await using var command = new NpgsqlCommand(
            "select table_schema || '.' || table_name || ' ' || column_name from information_schema.columns where table_schema in ('portal', 'account') and table_name <> 'migrations' order by 1", bare);
        await using var reader = await command.ExecuteReaderAsync();
        var columns = new List<string>();
        while (await reader.ReadAsync())
            columns.Add(reader.GetString(0));

        var classed = DataClasses.All.Select(c => $"{c.Table} {c.Column}").ToList();
        Assert.Equal([], columns.Where(c => c.StartsWith("portal.", StringComparison.Ordinal)).Except(classed).Select(c => $"data-classes.csv lacks {c}"));
        Assert.Equal([], classed.Except(columns).Select(c => $"data-classes.csv has {c}, which is not there"));
        Assert.Equal(classed.Count, classed.Distinct().Count());
        // What the words of a record lie in belongs to a learner, or to the trail of changes: so row-level security stands before it.
        var walled = columns.Where(c => c.EndsWith(" learner_id", StringComparison.Ordinal)).Select(c => c.Split(' ')[0]).Append("portal.learners").ToHashSet();
        Assert.Equal([], DataClasses.All.Where(c => c.Class is DataClass.Name or DataClass.Words or DataClass.Record && !walled.Contains(c.Table)).Select(c => $"{c.Table} {c.Column} is of a record and of no learner"));
    }
}
