using System.Collections.Concurrent;
using System.Diagnostics;
using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Hosting;

namespace TeamCircle.Web.Tests.Access;

/// <summary>
/// Notes what each request sends to the database, as the driver itself tells: a command, each command of a batch, a COPY. BEGIN and COMMIT are
/// none: BEGIN travels with the first command.
/// </summary>
/// <remarks>What is sent by the clock, or by another test's portal, belongs to no request here and is not noted.</remarks>
public sealed class StatementWatch : IStartupFilter, IDisposable
{
    private readonly AsyncLocal<Request?> _asking = new();
    private readonly ActivityListener _listener;
    private Request _last = new();

    public StatementWatch()
    {
        _listener = new()
        {
            ShouldListenTo = source => source.Name == "Npgsql",
            Sample = (ref _) => ActivitySamplingResult.AllData,
            ActivityStarted = sent => _asking.Value?.Note(sent),
        };
        ActivitySource.AddActivityListener(_listener);
    }

    /// <summary>What the latest request sent before its handler ran: who asks, what they may, the record of access.</summary>
    public IReadOnlyList<string> AtTheDoor => [.. _last.Door.SelectMany(TextsOf)];

    /// <summary>What the latest request sent once its handler ran, with what takes the role in each transaction.</summary>
    public IReadOnlyList<string> OfThePage => [.. _last.Page.SelectMany(TextsOf)];

    public Action<IApplicationBuilder> Configure(Action<IApplicationBuilder> next) => app =>
    {
        app.Use((http, go) =>
        {
            _asking.Value = _last = new();
            return go(http);
        });
        next(app);
    };

    internal void HandlerRuns()
    {
        if (_asking.Value is { } request)
            request.IsIn = true;
    }

    private static IEnumerable<string> TextsOf(Activity sent) =>
        (sent.GetTagItem("db.query.text") as string ?? sent.DisplayName).Split(';', StringSplitOptions.RemoveEmptyEntries | StringSplitOptions.TrimEntries);

    public void Dispose() => _listener.Dispose();

    private sealed class Request
    {
        public ConcurrentQueue<Activity> Door { get; } = [];
        public ConcurrentQueue<Activity> Page { get; } = [];
        public bool IsIn { get; set; }

        public void Note(Activity sent) => (IsIn ? Page : Door).Enqueue(sent);
    }
}
