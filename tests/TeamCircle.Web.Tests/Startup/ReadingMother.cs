using System.Diagnostics;
using System.Globalization;
using TeamCircle.Web.Tests.Access;

namespace TeamCircle.Web.Tests.Startup;

/// <summary>A mother who opens her page again and again, at each portal in turn, whatever goes on behind it. Any answer but 200 and her child's name is a fault.</summary>
internal sealed class ReadingMother : IAsyncDisposable
{
    private readonly HttpClientHandler _cookies = new();
    private readonly CancellationTokenSource _end = new();
    private readonly SemaphoreSlim _round = new(1);
    private readonly HttpClient _browser;
    private Uri[] _portals;
    private Task _reading = Task.CompletedTask;
    private int _pages;

    private ReadingMother(Uri portal) => (_browser, _portals) = (new(_cookies, disposeHandler: false) { BaseAddress = portal }, [portal]);

    /// <summary>The longest that a page took so far.</summary>
    public TimeSpan Longest { get; private set; }

    public static async Task<ReadingMother> StartAsync(string email, Uri portal)
    {
        var mother = new ReadingMother(portal);
        (await mother._browser.SignInAsync(email)).Dispose();
        mother._reading = mother.ReadOnAsync();
        return mother;
    }

    /// <summary>From now on at these; no page of another is under way any more.</summary>
    public async Task ReadAtAsync(params Uri[] portals)
    {
        await _round.WaitAsync();
        _portals = portals;
        _round.Release();
    }

    /// <returns>How many pages she read, in words.</returns>
    public async Task<string> FinishAsync()
    {
        await _end.CancelAsync();
        await _reading;
        return string.Create(CultureInfo.InvariantCulture, $"{_pages} times 200 and nothing else, {Longest.TotalSeconds:0.0} s at most");
    }

    private async Task ReadOnAsync()
    {
        using var pace = new PeriodicTimer(TimeSpan.FromMilliseconds(50));
        while (!_end.IsCancellationRequested)
        {
            await _round.WaitAsync();
            try
            {
                foreach (var portal in _portals)
                    await ReadAsync(portal);
            }
            finally
            {
                _round.Release();
            }
            await pace.WaitForNextTickAsync();
        }
    }

    private async Task ReadAsync(Uri portal)
    {
        var waited = Stopwatch.StartNew();
        using var answer = await _browser.GetAsync(portal);
        if ((int)answer.StatusCode != 200)
            throw new InvalidOperationException($"The mother's page {_pages + 1} was answered {(int)answer.StatusCode}.");
        Assert.Contains("Wren", await answer.Content.ReadAsStringAsync(), StringComparison.Ordinal);
        Longest = waited.Elapsed > Longest ? waited.Elapsed : Longest;
        _pages++;
    }

    public async ValueTask DisposeAsync()
    {
        await _end.CancelAsync();
        await Task.WhenAny(_reading); // what ended it was said by FinishAsync, or something else ended the test before
        _end.Dispose();
        _round.Dispose();
        _browser.Dispose();
        _cookies.Dispose();
    }
}
