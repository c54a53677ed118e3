using System.Data.Common;
using System.Reflection;
using System.Text.Json.Serialization.Metadata;
using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Diagnostics;
using Microsoft.Extensions.DependencyInjection;
using Npgsql;
using TeamCircle.Core;
using TeamCircle.Data.Devices;
using TeamCircle.Data.Learners;
using TeamCircle.Testing;
using TeamCircle.Testing.Postgres;

namespace TeamCircle.Data.Tests;

/// <summary>What is said to be saved is saved, once, whatever happens around the commit.</summary>
public sealed class PortalTests(TestDatabase database) : IClassFixture<TestDatabase>, IAsyncLifetime
{
    private static int _agencies;
    private readonly AtCommit _atCommit = new();
    private TestAgency _agency = null!;
    private ServiceProvider _services = null!;

    private Portal Portal => _services.GetRequiredService<Portal>();

    private static CancellationToken Stop => TestContext.Current.CancellationToken;

    private sealed record Answer(int Id);

    public async ValueTask InitializeAsync()
    {
        _agency = await TestAgency.CreateAsync(database, $"DOOR{Interlocked.Increment(ref _agencies)}");
        _services = new ServiceCollection().AddTeamCircleData(database.ConnectionString(Migrate.App))
            .ConfigureDbContext<PortalDb>(o => o.AddInterceptors(_atCommit)).BuildServiceProvider();
    }

    public async ValueTask DisposeAsync()
    {
        await _services.DisposeAsync();
        await _agency.DisposeAsync();
    }

    [Fact]
    public async Task Commit_whose_answer_is_lost_is_found_by_its_operation()
    {
        _atCommit.Committed = _ => throw new NpgsqlException("The connection broke.", new IOException());

        var saved = await SaveAsync(Named("a"));

        Assert.Equal(saved.Value!.Id, Assert.Single(await LearnersAsync()));
    }

    [Fact]
    public async Task Server_process_that_dies_before_the_commit_leaves_nothing_and_the_same_form_can_be_sent_again()
    {
        var operation = Named("a");
        _atCommit.Committing = KillAsync;
        await Assert.ThrowsAnyAsync<NpgsqlException>(() => SaveAsync(operation));
        Assert.Empty(await LearnersAsync());

        _atCommit.Committing = _ => Task.CompletedTask;
        var again = await SaveAsync(operation);

        Assert.Equal(again.Value!.Id, Assert.Single(await LearnersAsync()));
    }

    [Fact]
    public async Task Commit_that_has_begun_is_finished_when_the_browser_gives_up()
    {
        using var browser = new CancellationTokenSource();
        _atCommit.Committing = _ => browser.CancelAsync();

        var saved = await SaveAsync(Named("a"), browser.Token);

        Assert.Equal(saved.Value!.Id, Assert.Single(await LearnersAsync()));
    }

    [Fact]
    public async Task Browser_that_gives_up_before_the_commit_saves_nothing()
    {
        using var browser = new CancellationTokenSource();

        await Assert.ThrowsAnyAsync<OperationCanceledException>(() => Portal.WriteAsync(_agency.WholeAgency, Named("a"), async db =>
        {
            var answer = await AddAsync(db);
            await browser.CancelAsync();
            return answer;
        }, browser.Token));

        Assert.Empty(await LearnersAsync());
    }

    [Fact]
    public async Task Same_form_sent_many_times_at_once_is_saved_once_and_all_get_one_answer()
    {
        var operation = Named("a");

        var answers = await Task.WhenAll(Enumerable.Range(0, 12).Select(_ => SaveAsync(operation)));

        var learner = Assert.Single(await LearnersAsync());
        Assert.All(answers, answer => Assert.Equal(learner, answer.Value?.Id));
    }

    [Fact]
    public async Task Repeat_that_waits_for_one_that_is_taken_back_runs_itself()
    {
        var operation = Named("a");
        using var inside = new SemaphoreSlim(0);
        using var go = new SemaphoreSlim(0);
        var refused = Portal.WriteAsync(_agency.WholeAgency, operation, async _ =>
        {
            inside.Release();
            await go.WaitAsync(Stop);
            return Outcome<Answer>.Refused("", "Not this time.");
        }, Stop);
        await inside.WaitAsync(Stop);
        var repeat = SaveAsync(operation);
        go.Release();

        Assert.Null((await refused).Value);
        Assert.Equal((await repeat).Value?.Id, Assert.Single(await LearnersAsync()));
    }

    [Fact]
    public async Task Number_of_one_form_does_not_answer_another_act_with_the_same_content()
    {
        var operation = Named("a");
        await SaveAsync(operation);

        var other = await SaveAsync(operation with { Name = "Another" });

        Assert.Contains("already saved with other content", Assert.Single(other.Problems).Message, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Form_without_a_number_is_refused_and_saves_nothing()
    {
        var refused = await SaveAsync(Operation.Of(Guid.Empty, "AddLearner", "a"));

        Assert.Contains("without its number", Assert.Single(refused.Problems).Message, StringComparison.Ordinal);
        Assert.Empty(await LearnersAsync());
    }

    [Fact]
    public async Task Character_that_the_database_cannot_keep_is_a_problem_in_words()
    {
        var refused = await Portal.WriteAsync(_agency.WholeAgency, Named("a"), db => AddAsync(db, "A\0B"), Stop);

        Assert.Contains("character", Assert.Single(refused.Problems).Message, StringComparison.Ordinal);
    }

    /// <summary>A repeat is answered from JSON: an answer that JSON writes and can't read back would turn it into a fault.</summary>
    [Fact]
    public void Answer_of_every_operation_can_be_read_back()
    {
        var answers = typeof(Portal).Assembly.GetTypes().SelectMany(t => t.GetMethods(BindingFlags.Public | BindingFlags.Instance | BindingFlags.DeclaredOnly))
            .Where(m => m.Name == "RunAsync" && m.GetParameters().Any(p => p.ParameterType == typeof(Guid)))
            .Select(m => m.ReturnType.IsGenericType ? m.ReturnType.GetGenericArguments()[0] : m.ReturnType)
            .Where(t => t.IsGenericType && t.GetGenericTypeDefinition() == typeof(Outcome<>)).Select(t => t.GetGenericArguments()[0]).Distinct().ToList();

        var unreadable = answers.SelectMany(answer => Operation.Json.GetTypeInfo(answer) is { Kind: JsonTypeInfoKind.Object } type
            ? type.Properties.Where(p => p.Set is null && p.AssociatedParameter is null).Select(p => $"{answer.FullName}.{p.Name}")
            : [$"{answer.FullName}"]);

        Assert.NotEmpty(answers);
        Assert.Empty(unreadable);
    }

    [Fact]
    public void Days_and_times_are_part_of_what_was_asked_for()
    {
        var id = Guid.CreateVersion7();
        var hashes = new[] { new NodaTime.LocalTime(9, 0), new(9, 1), new(9, 0, 1) }
            .SelectMany(time => new[] { new NodaTime.LocalDate(2026, 9, 1), new(2026, 9, 2) }.Select(day => new { day, time }))
            .Select(input => Convert.ToHexString(Operation.Of(id, "x", input).RequestHash));

        Assert.Equal(6, hashes.Distinct().Count());
    }

    private static Operation Named(string input) => Operation.Of(Guid.CreateVersion7(), "AddLearner", input);

    private Task<Outcome<Answer>> SaveAsync(Operation operation, CancellationToken? stop = null) =>
        Portal.WriteAsync(_agency.WholeAgency, operation, db => AddAsync(db), stop ?? Stop);

    private async Task<Outcome<Answer>> AddAsync(PortalDb db, string? code = null)
    {
        var row = new LearnerRow { AgencyId = _agency.Id, Code = code ?? Guid.CreateVersion7().ToString("N"), Name = "Wren Belmares", MostMinutesADay = 90 };
        db.Add(row);
        await db.SaveChangesAsync(Stop);
        return Outcome<Answer>.Of(new Answer(row.Id));
    }

    private Task<List<int>> LearnersAsync() =>
        _agency.Portal.ReadAsync(_agency.WholeAgency, db => db.Learners.Where(l => l.AgencyId == _agency.Id).Select(l => l.Id).ToListAsync(Stop), Stop);

    /// <summary>Ends the server's process behind a connection, as a crash of the server does.</summary>
    private async Task KillAsync(DbTransaction transaction)
    {
        var process = ((NpgsqlConnection)transaction.Connection!).ProcessID;
        await using var other = new NpgsqlConnection(database.ConnectionString() + ";Pooling=false");
        await other.OpenAsync(Stop);
        await using var kill = new NpgsqlCommand("select pg_terminate_backend($1, 5000)", other) { Parameters = { new() { Value = process } } };
        Assert.Equal(true, await kill.ExecuteScalarAsync(Stop));
    }

    /// <summary>Lets a test do something at the moment before and after a commit.</summary>
    private sealed class AtCommit : DbTransactionInterceptor
    {
        public Func<DbTransaction, Task> Committing { get; set; } = _ => Task.CompletedTask;
        public Func<DbTransaction, Task> Committed { get; set; } = _ => Task.CompletedTask;

        public override async ValueTask<InterceptionResult> TransactionCommittingAsync(
            DbTransaction transaction, TransactionEventData eventData, InterceptionResult result, CancellationToken cancellationToken = default)
        {
            await Committing(transaction);
            return result;
        }

        public override Task TransactionCommittedAsync(DbTransaction transaction, TransactionEndEventData eventData, CancellationToken cancellationToken = default) =>
            Committed(transaction);
    }
}
