using System.Collections.Concurrent;
using System.Text.Json;
using Microsoft.Playwright;
using TeamCircle.Browser.Tests.Browser;

namespace TeamCircle.Browser.Tests.Practice;

/// <summary>A network that lies, breaks off, and a sign-in that ends: each record reaches the portal once.</summary>
public sealed class SendingTests(PortalSite site)
{
    [Fact]
    public async Task Record_is_let_go_only_when_the_portal_names_it_and_is_stored_once_however_the_answer_is_lost()
    {
        var routine = await PractisedRoutine.AddAsync(site);
        await using var tablet = await Tablet.SetUpAsync(site, site.Portal.Team.Tomasz);
        tablet.Tab.Allow("ERR_FAILED");
        tablet.Tab.Allow("401");
        var page = tablet.Page;

        // A network's own sign-in page answers everything with 200.
        await tablet.OfflineAsync(true);
        await tablet.AddProbeAsync(routine, 10);
        await page.RouteAsync("**/device/**", GuestNetworkAsync); // before the page sends by itself because there is a network again
        await tablet.OfflineAsync(false);
        await AskAsync(tablet, "**/device/**", GuestNetworkAsync);
        Assert.Equal((1, 0), (await tablet.QueuedAsync(), (await routine.ProbesAsync()).Count));

        // JSON that names something else is no answer either.
        await AskAsync(tablet, "**/device/operations", route => route.FulfillAsync(new() { Status = 200, ContentType = "application/json", Body = """{"answers":[{"id":"01a00000-0000-7000-8000-000000000000","end":"stored"}]}""" }));
        Assert.Equal(1, await tablet.QueuedAsync());

        // The portal has stored it, and the answer is lost.
        await AskAsync(tablet, "**/device/operations", async route => { await route.FetchAsync(); await route.AbortAsync(); });
        Assert.Equal((1, 1), (await tablet.QueuedAsync(), (await routine.ProbesAsync()).Count));

        // The sign-in ends in between.
        var cookies = await page.Context.CookiesAsync();
        await page.Context.ClearCookiesAsync();
        await tablet.ClickAsync("Send now");
        await page.GetByText("You are not signed in to the portal").WaitForAsync();
        Assert.Equal(1, await tablet.QueuedAsync());

        await page.Context.AddCookiesAsync(cookies.Select(c => new Cookie { Name = c.Name, Value = c.Value, Domain = c.Domain, Path = c.Path, Expires = c.Expires, HttpOnly = c.HttpOnly, Secure = c.Secure, SameSite = c.SameSite }));
        await tablet.WaitUntilSentAsync();
        Assert.Single(await routine.ProbesAsync());
        Assert.Equal(0, await tablet.QueuedAsync());
        tablet.Tab.AssertNoComplaints();
    }

    [Fact]
    public async Task Two_tabs_never_send_at_once()
    {
        var routine = await PractisedRoutine.AddAsync(site);
        await using var tablet = await Tablet.SetUpAsync(site, site.Portal.Team.Tomasz);
        await using var second = await tablet.SecondTabAsync();
        await second.Page.GotoAsync("/practise#/waiting");
        await second.Page.GetByLabel("PIN", new PageGetByLabelOptions { Exact = true }).FillAsync(Tablet.Pin);
        await second.Page.GetByRole(AriaRole.Button, new PageGetByRoleOptions { Name = "Open", Exact = true }).ClickAsync();
        await second.Page.GetByText("Nothing waits.").WaitForAsync();
        await tablet.OfflineAsync(true);
        second.Allow("ERR_INTERNET_DISCONNECTED");
        foreach (var value in new[] { 10, 20, 30 })
            await tablet.AddProbeAsync(routine, value);

        var sent = new ConcurrentBag<string>();
        var (now, most, goOn) = (0, 0, new TaskCompletionSource());
        await tablet.Page.Context.RouteAsync("**/device/operations", async route =>
        {
            most = Math.Max(most, Interlocked.Increment(ref now));
            foreach (var operation in JsonDocument.Parse(route.Request.PostData!).RootElement.GetProperty("operations").EnumerateArray())
                sent.Add(operation.GetProperty("id").GetString()!);
            await goOn.Task;
            var answer = await route.FetchAsync();
            Interlocked.Decrement(ref now);
            await route.FulfillAsync(new() { Response = answer });
        });
        await tablet.Page.EvaluateAsync("location.hash = '#/waiting'");
        IPage[] tabs = [tablet.Page, second.Page];
        await tablet.OfflineAsync(false);
        // Both try at once when the network is back. Which of them sends is chance; the other waits, and sees what became of it by itself.
        await (await Task.WhenAny(tabs.Select(tab => tab.GetByText("Another tab is sending now.").WaitForAsync())));
        goOn.SetResult();
        foreach (var tab in tabs)
            await tab.GetByText("Nothing waits.").WaitForAsync();

        Assert.Equal(1, most);
        Assert.Equal(3, sent.Count);
        Assert.Equal(3, sent.Distinct().Count());
        Assert.Equal(3, (await routine.ProbesAsync()).Count);
    }

    /// <summary>Otherwise it would wait for the next minute, and in this test too long.</summary>
    [Fact]
    public async Task Network_that_comes_back_while_a_try_still_fails_is_used_at_once()
    {
        var routine = await PractisedRoutine.AddAsync(site);
        await using var tablet = await Tablet.SetUpAsync(site, site.Portal.Team.Tomasz);
        tablet.Tab.Allow("ERR_FAILED");
        var (tries, begun, fails) = (0, new TaskCompletionSource(), new TaskCompletionSource());
        await tablet.Page.RouteAsync("**/device/contact*", async route =>
        {
            if (Interlocked.Increment(ref tries) > 1)
            {
                await route.ContinueAsync();
                return;
            }
            begun.SetResult();
            await fails.Task;
            await route.AbortAsync();
        });
        await tablet.AddProbeAsync(routine, 10);
        await begun.Task.WaitAsync(TimeSpan.FromSeconds(15));
        await tablet.Page.EvaluateAsync("location.hash = '#/waiting'; dispatchEvent(new Event('online'));");
        fails.SetResult();
        await tablet.Page.GetByText("Nothing waits.").WaitForAsync();
        Assert.Single(await routine.ProbesAsync());
    }

    /// <summary>What was still being put together when somebody went on to a form must not take its place, with what they type in it.</summary>
    [Fact]
    public async Task Page_that_was_left_is_not_drawn_over_the_next_one()
    {
        await using var tablet = await Tablet.SetUpAsync(site, site.Portal.Team.Tomasz);

        var stands = await tablet.Page.EvaluateAsync<string[]>("""
            async () => {
              const { el, keepDrawn } = await import("/js/practise/element.js");
              const place = document.createElement("div"), slow = [], stands = [];
              const began = keepDrawn(place, () => new Promise(done => slow.push(words => done([el("p", {}, words)]))));
              slow[0]("first");
              const leave = await began;
              stands.push(place.textContent);
              place.dispatchEvent(new CustomEvent("changed"));
              place.dispatchEvent(new CustomEvent("changed"));
              slow[2]("third");
              await Promise.resolve().then(() => {});
              slow[1]("second, and late");
              await new Promise(done => setTimeout(done));
              stands.push(place.textContent);
              place.dispatchEvent(new CustomEvent("changed"));
              leave();
              place.replaceChildren(el("p", {}, "the form"));
              slow[3]("late");
              await new Promise(done => setTimeout(done));
              return [...stands, place.textContent];
            }
            """);

        Assert.Equal(["first", "third", "the form"], stands);
    }

    private static Task GuestNetworkAsync(IRoute route) =>
        route.FulfillAsync(new() { Status = 200, ContentType = "text/html", Body = "<html>Welcome to the guest network</html>" });

    /// <summary>Asks to send while the network does this, and waits until the page has heard what came of it.</summary>
    private static async Task AskAsync(Tablet tablet, string path, Func<IRoute, Task> does)
    {
        var done = new TaskCompletionSource();
        await tablet.Page.EvaluateAsync("location.hash = '#/waiting'");
        await tablet.Page.RouteAsync(path, async route =>
        {
            await does(route);
            done.TrySetResult();
        });
        await tablet.ClickAsync("Send now");
        await done.Task.WaitAsync(TimeSpan.FromSeconds(15));
        await tablet.Page.GetByText("Sending now.").WaitForAsync(new() { State = WaitForSelectorState.Detached });
        await tablet.Page.GetByText("The portal does not answer.").WaitForAsync();
        await tablet.Page.UnrouteAllAsync();
    }
}
