using System.Collections.Concurrent;
using System.Data;
using System.Data.Common;
using System.Diagnostics;
using Microsoft.EntityFrameworkCore.Diagnostics;
using Npgsql;
using TeamCircle.Data.Account;

namespace TeamCircle.Benchmarks;

/// <summary>Records what a marked request sends to the database: every command with its values, every COPY, the bounds of every transaction.</summary>
internal sealed class SentRecorder : IDisposable
{
    /// <summary>A request that carries it is recorded under its value.</summary>
    public const string Header = "X-Record";

    private readonly AsyncLocal<Recording?> _asking = new();
    private readonly ConcurrentDictionary<string, Recording> _recordings = [];
    private readonly ConcurrentDictionary<string, SentScript> _scripts = [];
    private ActivityListener? _copies;

    public SentRecorder() => Interceptors = [new Commands(this), new Transactions(this)];

    /// <summary>Begins to listen to the driver as well: it alone tells of COPY.</summary>
    public void Listen()
    {
        _copies = new()
        {
            ShouldListenTo = source => source.Name == "Npgsql",
            Sample = (ref _) => _asking.Value is null ? ActivitySamplingResult.None : ActivitySamplingResult.AllData,
            ActivityStarted = _ => _asking.Value?.Told(),
            ActivityStopped = NoteCopy,
        };
        ActivitySource.AddActivityListener(_copies);
    }

    /// <summary>For both contexts.</summary>
    public IInterceptor[] Interceptors { get; }

    /// <param name="key">Null where the request is not marked.</param>
    public void Begin(string? key) => _asking.Value = key is null ? null : _recordings[key] = new();

    /// <summary>Keeps what was recorded under a key.</summary>
    /// <param name="body">What the page answered.</param>
    /// <exception cref="InvalidOperationException">The driver tells of more statements than were recorded: a floor would do less than the page.</exception>
    public void Keep(string key, byte[] body)
    {
        var recording = _recordings[key];
        List<SentStep> steps = [.. recording.Steps];
        if (steps.Count(s => s.Sql is not null) is var recorded && recorded != recording.All)
            throw new InvalidOperationException($"{key} sent {recording.All} statements, and {recorded} were recorded.");
        _scripts[key] = new(steps, body);
    }

    public SentScript Script(string key) => _scripts[key];

    private void NoteCopy(Activity told)
    {
        if (_asking.Value is { } asking && told.GetTagItem("db.query.text") is string sql && sql.StartsWith("copy", StringComparison.OrdinalIgnoreCase))
            asking.Steps.Enqueue(new(sql, [], null, false));
    }

    private void Note(DbCommand command, bool isAccount) => _asking.Value?.Steps.Enqueue(
        new(command.CommandText, [.. command.Parameters.Cast<NpgsqlParameter>().Select(p => p.Clone())], null, isAccount));

    private void NoteBound(IsolationLevel? begins, bool isAccount) => _asking.Value?.Steps.Enqueue(new(null, [], begins, isAccount));

    /// <summary>Listens to the driver no more, so that what follows is not slowed by it.</summary>
    public void Rest() => _copies?.Dispose();

    public void Dispose() => Rest();

    private sealed class Recording
    {
        private int _all;

        public ConcurrentQueue<SentStep> Steps { get; } = [];

        /// <summary>How many statements the driver itself told of.</summary>
        public int All => _all;

        public void Told() => Interlocked.Increment(ref _all);
    }

    private sealed class Commands(SentRecorder to) : DbCommandInterceptor
    {
        public override ValueTask<InterceptionResult<DbDataReader>> ReaderExecutingAsync(
            DbCommand command, CommandEventData data, InterceptionResult<DbDataReader> result, CancellationToken cancellationToken = default)
        {
            to.Note(command, data.Context is AccountDb);
            return new(result);
        }

        public override ValueTask<InterceptionResult<int>> NonQueryExecutingAsync(
            DbCommand command, CommandEventData data, InterceptionResult<int> result, CancellationToken cancellationToken = default)
        {
            to.Note(command, data.Context is AccountDb);
            return new(result);
        }

        public override InterceptionResult<DbDataReader> ReaderExecuting(DbCommand command, CommandEventData data, InterceptionResult<DbDataReader> result)
        {
            to.Note(command, data.Context is AccountDb);
            return result;
        }
    }

    private sealed class Transactions(SentRecorder to) : DbTransactionInterceptor
    {
        public override ValueTask<DbTransaction> TransactionStartedAsync(
            DbConnection connection, TransactionEndEventData data, DbTransaction result, CancellationToken cancellationToken = default)
        {
            to.NoteBound(result.IsolationLevel, data.Context is AccountDb);
            return new(result);
        }

        public override Task TransactionCommittedAsync(DbTransaction transaction, TransactionEndEventData data, CancellationToken cancellationToken = default)
        {
            to.NoteBound(null, data.Context is AccountDb);
            return Task.CompletedTask;
        }
    }
}
