using Deque.AxeCore.Playwright;
using Microsoft.Playwright;
using TeamCircle.Browser.Tests.Browser;
using TeamCircle.Data.People;

namespace TeamCircle.Browser.Tests.Practice;

/// <summary>A tablet with the practice pages: set up by a person, then with or without network, killed and opened again.</summary>
internal sealed class Tablet : IAsyncDisposable
{
    public const string Pin = "738104";

    private readonly IBrowserContext _context;
    private Tab _tab = null!;

    private Tablet(IBrowserContext context) => _context = context;

    public IPage Page => _tab.Page;

    public Tab Tab => _tab;

    /// <summary>Signs in, sets the device up, and waits until everything is on it.</summary>
    public static async Task<Tablet> SetUpAsync(PortalSite site, PersonRow person, long? quota = null)
    {
        var tablet = new Tablet(await site.NewTabletAsync());
        await tablet._context.AddInitScriptAsync(Listen);
        await tablet.OpenTabAsync();
        if (quota is not null)
            await tablet.SetQuotaAsync(site, quota);
        await tablet.SignInAsync(person);
        await tablet.EnrolAsync();
        return tablet;
    }

    public async Task SignInAsync(PersonRow person)
    {
        await Page.GotoAsync("/sign-in?then=%2Fpractise");
        await PortalSite.SignInAsync(Page, person, "/practise");
    }

    public async Task EnrolAsync()
    {
        await FillPinsAsync();
        await Page.GetByLabel("This device is encrypted and locks its screen").CheckAsync();
        await ClickAsync("Set up");
        await TodayAsync();
        await Page.EvaluateAsync("navigator.serviceWorker.ready.then(() => null)");
    }

    public async Task FillPinsAsync()
    {
        await Page.GetByLabel("PIN", new PageGetByLabelOptions { Exact = true }).FillAsync(Pin);
        await Page.GetByLabel("PIN once more").FillAsync(Pin);
    }

    /// <summary>Opens the practice pages anew, with the PIN, in the tab that there is.</summary>
    public async Task OpenAsync(string hash = "")
    {
        await Page.GotoAsync("about:blank");
        await Page.GotoAsync("/practise" + hash);
        await EnterPinAsync(Pin);
    }

    public async Task EnterPinAsync(string pin)
    {
        await Page.GetByLabel("PIN", new PageGetByLabelOptions { Exact = true }).FillAsync(pin);
        await Page.GetByRole(AriaRole.Button, new PageGetByRoleOptions { Name = "Open", Exact = true }).ClickAsync();
    }

    /// <summary>Today's list is there.</summary>
    public Task TodayAsync() => Page.GetByRole(AriaRole.Heading, new PageGetByRoleOptions { Name = "Today, " }).WaitForAsync();

    public Task OfflineAsync(bool isOffline)
    {
        _tab.Allow("ERR_INTERNET_DISCONNECTED");
        return _context.SetOfflineAsync(isOffline);
    }

    /// <summary>Ends the page's process in the middle of whatever it does, as an empty battery would, and opens another.</summary>
    public async Task KillAsync()
    {
        var crashed = new TaskCompletionSource();
        Page.Crash += (_, _) => crashed.TrySetResult();
        var session = await _context.NewCDPSessionAsync(Page);
        _ = session.SendAsync("Page.crash").ContinueWith(_ => { }, TaskScheduler.Default); // it never answers
        await crashed.Task.WaitAsync(TimeSpan.FromSeconds(15));
        await Page.CloseAsync();
        await OpenTabAsync();
    }

    /// <summary>A second tab of the same browser.</summary>
    public async Task<Tab> SecondTabAsync() => await Tab.OpenAsync(_context);

    public Task ClickAsync(string button) => Page.GetByRole(AriaRole.Button, new PageGetByRoleOptions { Name = button, Exact = true }).ClickAsync();

    /// <summary>Taps an act, and waits for the act that the sheet offers once this one is stored.</summary>
    public async Task TapAsync(string kind, string? then = null)
    {
        await Page.Locator($"[data-kind='{kind}']").TapAsync();
        if (then is not null)
            await Page.Locator($"[data-kind='{then}']").First.WaitForAsync();
    }

    /// <summary>From now on time passes on the tablet only as the test says.</summary>
    public async Task HoldTimeAsync() => await _context.Clock.PauseAtAsync(DateTime.UnixEpoch.AddMilliseconds(await Page.EvaluateAsync<double>("Date.now() + 1000")));

    public Task LetTimeGoAsync() => _context.Clock.ResumeAsync();

    /// <summary>Time passes on the tablet.</summary>
    public Task PassAsync(double seconds) => _context.Clock.FastForwardAsync((long)(seconds * 1000));

    /// <summary>From today's list to the sheet of a routine.</summary>
    public async Task BeginAsync(PractisedRoutine routine)
    {
        await Page.EvaluateAsync($"location.hash = '#/routine/{routine.Routine.Id}?visit={routine.Visit.Id}'");
        await ClickAsync("Begin");
        await Page.Locator("[data-kind='next']").WaitForAsync();
    }

    public async Task SaveAsync()
    {
        await ClickAsync("Save the practice");
        await Page.GetByText("The practice is recorded on this device.").WaitForAsync();
    }

    public async Task AddProbeAsync(PractisedRoutine routine, int value)
    {
        await Page.EvaluateAsync($"location.hash = '#/goal/{routine.Of.Goal.Id}'");
        await Page.GetByLabel("Value").FillAsync(value.ToString(System.Globalization.CultureInfo.InvariantCulture));
        await ClickAsync("Save");
        await Page.GetByText("The probe is recorded on this device.").WaitForAsync();
    }

    /// <summary>What waits on the device, once the waiting page says that nothing or something does.</summary>
    public async Task WaitUntilSentAsync()
    {
        await Page.EvaluateAsync("location.hash = '#/waiting'");
        await ClickAsync("Send now");
        await Page.GetByText("Nothing waits.").WaitForAsync();
    }

    /// <summary>axe finds nothing; the pages look the same whatever the system's scheme.</summary>
    public async Task AssertAccessibleAsync() =>
        Assert.Empty((await Page.RunAxe()).Violations.SelectMany(v => v.Nodes.Select(n => $"{v.Id}, {v.Help}: {n.Html}")));

    /// <summary>Leaves the whole device this much room.</summary>
    public async Task SetQuotaAsync(PortalSite site, long? bytes)
    {
        var session = await _context.NewCDPSessionAsync(Page);
        var quota = new Dictionary<string, object> { ["origin"] = site.Address.GetLeftPart(UriPartial.Authority) };
        if (bytes is { } size)
            quota["quotaSize"] = size;
        await session.SendAsync("Storage.overrideQuotaForOrigin", quota);
    }

    /// <summary>Something else on the device takes all the room that is left.</summary>
    public Task FillUpAsync() => Page.EvaluateAsync(FillUp);

    /// <summary>Rows of each store of each person's database, and what stands in all databases and caches as text.</summary>
    public Task<string> DumpAsync() => Page.EvaluateAsync<string>(Dump);

    /// <summary>What the pages of this tab asked the device itself for: to keep the screen on, to vibrate, to keep what is stored.</summary>
    public Task<string> AskedAsync() => Page.EvaluateAsync<string>("sessionStorage.asked ?? ''");

    public Task<int> QueuedAsync() => Page.EvaluateAsync<int>(Count);

    public async ValueTask DisposeAsync() => await _context.DisposeAsync();

    private async Task OpenTabAsync() => _tab = await Tab.OpenAsync(_context);

    /// <summary>Writes down what is asked for, and lets the browser answer.</summary>
    private const string Listen = """
        for (const [owner, name, words] of [[window.WakeLock, 'request', 'wakeLock'], [window.Navigator, 'vibrate', 'vibrate'], [window.StorageManager, 'persist', 'persist']]) {
          const own = owner?.prototype[name];
          if (own) owner.prototype[name] = function (...given) { sessionStorage.asked = `${sessionStorage.asked ?? ''}${words} ${given}\n`; return own.apply(this, given); };
        }
        """;

    private const string Names = "const names = (await indexedDB.databases()).map(d => d.name);"
        + "const open = name => new Promise(done => { const r = indexedDB.open(name); r.onsuccess = () => done(r.result); });"
        + "const all = store => new Promise(done => { const r = store.getAll(); r.onsuccess = () => done(r.result); });";

    private const string Count = "async () => {" + Names
        + "let n = 0; for (const name of names.filter(x => x !== 'practise' && x !== 'filler')) { const db = await open(name); n += (await all(db.transaction('queue').objectStore('queue'))).length; db.close(); } return n; }";

    private const string FillUp = """
        async () => {
          const db = await new Promise(done => { const r = indexedDB.open('filler'); r.onupgradeneeded = () => r.result.createObjectStore('s', { autoIncrement: true }); r.onsuccess = () => done(r.result); });
          const add = size => new Promise(done => {
            const t = db.transaction('s', 'readwrite', { durability: 'strict' });
            t.oncomplete = () => done(true);
            t.onabort = () => done(false);
            t.objectStore('s').add(crypto.getRandomValues(new Uint8Array(size)));
          });
          for (const size of [65536, 4096, 256]) while (await add(size));
          db.close();
        }
        """;

    internal const string Dump = "async () => {" + Names + """
        const text = value => value instanceof ArrayBuffer ? String.fromCharCode(...new Uint8Array(value))
          : ArrayBuffer.isView(value) ? String.fromCharCode(...value) : value instanceof CryptoKey ? `[key, extractable ${value.extractable}]`
          : value && typeof value === 'object' ? Object.entries(value).map(([k, v]) => `${k}=${text(v)}`).join(';') : String(value);
        let out = '';
        for (const name of names) {
          const db = await open(name);
          for (const store of db.objectStoreNames) {
            const rows = await all(db.transaction(store).objectStore(store));
            out += `\n${name === 'practise' ? name : 'own'} ${store} ${rows.length}\n` + rows.map(text).join('\n');
          }
          db.close();
        }
        for (const key of await caches.keys())
          for (const request of await (await caches.open(key)).keys()) {
            const url = new URL(request.url);
            out += `\ncached ${url.pathname}\n` + (/\.(js|css|html|svg)$/.test(url.pathname) ? await (await caches.match(request)).text() : '');
          }
        return out + `\nstorage ${JSON.stringify([{ ...localStorage }, { ...sessionStorage }])}\n`;
        }
        """;
}
