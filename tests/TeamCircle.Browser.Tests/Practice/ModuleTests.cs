using TeamCircle.Browser.Tests.Browser;

namespace TeamCircle.Browser.Tests.Practice;

/// <summary>The scripts that decide, each in the browser it is for.</summary>
public sealed class ModuleTests(PortalSite site)
{
    private const string Card = """
        const content = { procedure: 'leastToMost', waitSeconds: 12, prompts: [{ key: 'p1', words: 'one' }, { key: 'p2', words: 'two', waitSeconds: 20 }], steps: [] };
        const step = { key: 's', kind: 'response' };
        """;

    private async Task<string> RunAsync(string script)
    {
        await using var tab = await site.OpenAsync("/practise");
        var found = await tab.Page.EvaluateAsync<string>($"async () => JSON.stringify(await (async () => {{ {script} }})())");
        tab.Allow("401");
        tab.AssertNoComplaints();
        return found;
    }

    private Task<string> TimelineAsync(string script) =>
        RunAsync("const { newTrial, stateOf } = await import('/js/practise/timeline.js');" + Card + script);

    [Fact]
    public async Task Response_that_begins_at_10_s_and_lands_at_22_s_with_a_wait_of_12_s_makes_no_prompt_due()
    {
        var due = await TimelineAsync("""
            const t = newTrial('t', 's', false);
            t.events.push({ at: 1000, kind: 'cueEnded' });
            const at = now => stateOf(t, content, step, now);
            const before = at(10999).isDue;
            t.events.push({ at: 11000, kind: 'begun' });
            const trying = [at(13000), at(22999)].map(s => [s.isDue, s.waited, s.phase]);
            t.events.push({ at: 23000, kind: 'response', response: 'hopedFor' });
            return { before, trying, after: at(60000).isDue };
            """);

        Assert.Equal("""{"before":false,"trying":[[false,10000,"begun"],[false,10000,"begun"]],"after":false}""", due);
    }

    [Fact]
    public async Task Wait_stands_still_while_she_tries_goes_on_where_it_stood_and_begins_anew_with_each_prompt()
    {
        var found = await TimelineAsync("""
            const t = newTrial('t', 's', false), waits = [];
            const take = (kind, at, more = {}) => t.events.push({ kind, at, ...more });
            const look = now => { const s = stateOf(t, content, step, now); waits.push([s.waited, s.wait, s.isDue, s.next?.key ?? null]); };
            take('cueEnded', 0); take('begun', 5000); take('stoppedTrying', 9000); look(15999); look(16000);
            take('prompt', 17000, { prompt: 'p1' }); look(36999); look(37000);
            take('response', 40000, { late: true }); look(50000);
            return waits;
            """);

        Assert.Equal("""[[11999,12000,false,"p1"],[12000,12000,true,"p1"],[19999,20000,false,"p2"],[20000,20000,true,"p2"],[18000,20000,false,"p2"]]""", found);
    }

    [Fact]
    public async Task Visit_is_not_logged_on_a_device_before_it_has_ended_or_to_end_before_it_began()
    {
        var found = await RunAsync("""
            const { againstTimes } = await import('/js/practise/visit-view.js');
            const now = { day: '2026-11-30', time: '08:55' }, planned = { start: '08:30', minutes: 30 };
            const say = (typed, day, at = planned) => againstTimes({ outcome: 'given', ...typed }, day, now, at)?.slice(0, 8) ?? null;
            return [say({}, now.day), say({ end: '08:55' }, now.day), say({ end: '08:28' }, now.day), say({}, '2026-12-01'), say({}, '2026-11-29'),
              say({ outcome: 'notOffered' }, now.day), say({ outcome: 'notOffered', end: '08:30' }, now.day), say({ start: '08:00', end: '08:50' }, now.day, undefined)];
            """);

        Assert.Equal("""["That tim",null,"The end ","That day",null,null,"The end ",null]""", found);
    }

    [Fact]
    public async Task Mark_stays_where_it_stood_when_the_learner_closes_the_switch_and_begins_anew_after_the_adults_own_act()
    {
        var found = await RunAsync("""
            const { Scan } = await import('/js/practise/scan.js');
            const place = document.createElement('div');
            const draw = names => place.replaceChildren(...names.map(name => { const b = document.createElement('button'); b.dataset.kind = name; return b; }));
            draw(['stop', 'next', 'hold']);
            const scan = new Scan(0.005, () => [...place.children]);
            await new Promise(done => { const look = () => scan.marked.dataset.kind === 'next' ? done() : setTimeout(look); look(); });
            const marks = [];
            const look = () => marks.push(scan.marked.dataset.kind);
            draw(['undo', 'stop', 'next', 'hold']); scan.begin(true); look();
            draw(['undo', 'stop', 'next', 'hold']); scan.begin(); look();
            draw(['stop', 'quality']); scan.begin(true); look();
            scan.stop();
            return marks;
            """);

        Assert.Equal("""["next","undo","stop"]""", found);
    }

    [Fact]
    public async Task What_is_read_first_is_drawn_of_elements_alone_whatever_is_missing()
    {
        var found = await RunAsync("""
            const { showReadFirst } = await import('/js/practise/read-first-view.js');
            const place = document.createElement('main');
            showReadFirst({ learner: () => ({ id: 1, code: 'TF01', readFirst: true }), checked: { holds: [] }, readFirst: new Set() }, place, { id: '1' });
            return { stray: [...place.childNodes].filter(n => n.nodeType !== Node.ELEMENT_NODE).map(n => n.textContent), acts: place.querySelectorAll('button').length };
            """);

        Assert.Equal("""{"stray":[],"acts":1}""", found);
    }

    [Fact]
    public async Task Acts_fold_into_a_record_undo_takes_back_the_last_a_switch_nobody_asked_for_is_counted()
    {
        var found = await RunAsync("""
            const { practiceOf, recordOf, canUndo } = await import('/js/practise/practice.js');
            const start = { id: 'x', routine: 1, version: 2, visit: null, entry: 'live', startedAt: '2026-10-02T16:00:00.000Z', order: ['show', 'press'], conditions: {} };
            const acts = [{ kind: 'start', start }];
            const take = (kind, at, more = {}) => acts.push({ kind, at, by: 'screen', trial: `t${acts.length}`, ...more });
            take('closure', 500); take('next', 1000); take('cueEnded', 2000); take('begun', 3000); take('undo', 3100); take('closure', 4000); take('closure', 4500);
            take('quality', 4600, { response: 'hopedFor' }); take('undo', 4700); take('quality', 4800, { response: 'notSure' }); take('late', 4900);
            take('again', 5000); take('cueEnded', 6000); take('interrupted', 9000); take('cueEnded', 10000); take('refusal', 12000); take('discount', 12500);
            take('stop', 13000); take('stopTold', 14000, { what: 'a', done: '', told: 'b' }); take('resume', 15000); take('next', 16000); take('end', 17000);
            const record = recordOf(practiceOf(acts));
            return { trials: record.trials.map(t => [t.step, t.counts, t.interrupted, t.events.map(e => `${e.kind} ${e.at} ${e.by} ${e.response ?? ''}${e.late ? ' late' : ''}`)]),
              steps: record.steps, unasked: record.unaskedClosures, stops: record.stops, ended: record.endedAt, visit: 'visit' in record, undo: canUndo(acts) };
            """);

        Assert.Equal(
            """
            {"trials":[["press",true,false,["cueEnded 2000 screen ","response 4000 learnerSwitch notSure late"]],["press",true,true,["cueEnded 6000 screen ","end 9000 screen "]],["press",false,false,["cueEnded 10000 screen ","refusal 12000 screen "]]],
            """.Trim() + """
            "steps":[{"step":"show","done":"asWritten"},{"step":"press","done":"stopped","why":"said no"}],"unasked":[500,4500],"stops":[{"at":13000,"what":"a","told":"b","resumedAt":15000}],"ended":"2026-10-02T16:00:17.000Z","visit":false,"undo":false}
            """.Trim(),
            found);
    }

    [Fact]
    public async Task Key_opens_with_its_PIN_in_its_browser_only_and_ten_wrong_PINs_lock_it()
    {
        var found = await RunAsync("""
            const keys = await import('/js/practise/keys.js'), doors = await import('/js/practise/doors.js');
            const raw = crypto.getRandomValues(new Uint8Array(32)), given = { store: 's', device: 'd', key: btoa(String.fromCharCode(...raw)) };
            const { door, key } = await doors.setUp(given, { id: 1, initials: 'TA' }, '738104');
            const other = await keys.unwrap(door.wrapped, '738104', await keys.makeBrowserKey()).catch(e => e.name);
            const sealed = await keys.seal(key, { note: 'quiet' }, 'queue');
            const opened = await keys.unseal((await doors.tryPin('s', '738104')).key, sealed, 'queue');
            const elsewhere = await keys.unseal(key, sealed, 'acts').catch(e => e.name);
            const tries = [];
            for (let i = 0; i < 10; i++) tries.push((await doors.tryPin('s', '738105')).key);
            const last = await doors.tryPin('s', '738104');
            return { other, opened, elsewhere, tries: tries.every(t => t === null), last: last.key, kept: last.door.wrapped, rounds: keys.rounds, extractable: door.browserKey.extractable,
              problems: ['123456', '000000', '12345', '7381a4'].map(p => keys.pinProblem(p) !== null), good: keys.pinProblem('738104') };
            """);

        Assert.Equal(
            """{"other":"OperationError","opened":{"note":"quiet"},"elsewhere":"OperationError","tries":true,"last":null,"kept":null,"rounds":600000,"extractable":false,"problems":[true,true,true,true],"good":null}""",
            found);
    }

    [Fact]
    public async Task Clock_never_goes_back_and_the_wall_clocks_error_shows_at_once()
    {
        var found = await RunAsync("""
            const { PracticeClock, Skew, reopenedAt } = await import('/js/practise/clock.js');
            let tick = 100, wall = Date.parse('2026-10-02T16:05:00Z');
            const clock = new PracticeClock(2000, () => tick), skew = new Skew(() => wall, () => tick);
            const unheard = skew.ms;
            tick = 300; skew.hear('2026-10-02T16:00:00.000Z', 100);
            const heard = skew.ms; tick = 1300; wall -= 3 * 86400000;
            return { now: clock.now(), unheard, heard, set: skew.ms, reopened: [reopenedAt('2026-10-02T16:00:00Z', 5000, Date.parse('2026-10-02T16:01:00Z')), reopenedAt('2026-10-02T16:00:00Z', 5000, Date.parse('2026-10-01T16:01:00Z'))] };
            """);

        Assert.Equal("""{"now":3200,"unheard":null,"heard":299900,"set":-258901100,"reopened":[60000,5000]}""", found);
    }
}
