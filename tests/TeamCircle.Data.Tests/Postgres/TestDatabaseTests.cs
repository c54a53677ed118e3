using Npgsql;
using TeamCircle.Testing.Postgres;

namespace TeamCircle.Data.Tests.Postgres;

public sealed class TestDatabaseTests(PgAssembly server, TestDatabase database) : IClassFixture<TestDatabase>
{
    [Fact]
    public async Task Copies_of_the_template_do_not_see_each_other()
    {
        await using var other = new TestDatabase(server);
        await other.InitializeAsync();

        await RunAsync(database, "create table only_here (id int)");

        var missing = await Assert.ThrowsAsync<PostgresException>(() => RunAsync(other, "select * from only_here"));
        Assert.Equal(PostgresErrorCodes.UndefinedTable, missing.SqlState);
    }

    private static async Task RunAsync(TestDatabase database, string sql)
    {
        await using var source = NpgsqlDataSource.Create(database.ConnectionString());
        await using var command = source.CreateCommand(sql);
        await command.ExecuteNonQueryAsync(TestContext.Current.CancellationToken);
    }
}
