using System.Net;
using System.Net.Http.Headers;
using NodaTime;
using TeamCircle.Core.Learners;
using TeamCircle.Core.People;
using TeamCircle.Data.Calendar;
using TeamCircle.Data.Learners;
using TeamCircle.Data.People;

namespace TeamCircle.Web.Tests.Calendar;

/// <summary>The secret address of one's own visits: made, read, renewed and ended. Each test has a person of its own.</summary>
public sealed class FeedTests(TeamPortal portal) : IClassFixture<TeamPortal>
{
    private static readonly LocalDate Begin = new(2026, 8, 17);
    private static int _people;

    private static CancellationToken Stop => TestContext.Current.CancellationToken;

    private async Task<PersonRow> PersonAsync()
    {
        var number = Interlocked.Increment(ref _people);
        var person = await portal.Agency.AddAsync(new PersonRow { Name = $"Corin Velladay {number}", Email = $"corin{number}@tallowfern.example" });
        await portal.Agency.AddAsync(new PersonRoleRow { PersonId = person.Id, Role = Role.Provider, FromDay = Begin });
        await portal.Agency.AddAsync(new RelationRow { LearnerId = portal.Team.Wren.Id, PersonId = person.Id, Kind = Relation.Team, FromDay = Begin });
        await portal.AddAccountsAsync();
        return person;
    }

    private async Task<VisitRow> VisitAsync(PersonRow person, LocalDate day, Action<VisitRow>? with = null)
    {
        var visit = new VisitRow
        {
            Id = Guid.CreateVersion7(),
            LearnerId = portal.Team.Wren.Id,
            Kind = Core.Calendar.VisitKind.EquipmentAndFitting,
            ProviderId = person.Id,
            Zone = "America/Los_Angeles",
        };
        visit.TakePlace(day, new(16, 0), 30);
        with?.Invoke(visit);
        return await portal.Agency.AddAsync(visit);
    }

    /// <summary>Makes an address as a person does, and gives its path.</summary>
    private async Task<string> MakeAsync(PersonRow person)
    {
        var form = await FilledForm.OpenAsync(await portal.BrowserAsync(person), "/account/feed");
        var shown = await form.SendForAgainAsync();
        return new Uri(shown.Page.Text(".shown-link code")).AbsolutePath;
    }

    /// <summary>As a calendar program asks: without a sign-in.</summary>
    private async Task<HttpResponseMessage> ReadAsync(string path, string? tag = null)
    {
        using var program = portal.CreateClient();
        using var request = new HttpRequestMessage(HttpMethod.Get, new Uri(path, UriKind.Relative));
        if (tag is not null)
            request.Headers.IfNoneMatch.Add(EntityTagHeaderValue.Parse(tag));
        return await program.SendAsync(request, Stop);
    }

    private async Task<string> CalendarAsync(string path)
    {
        using var answer = await ReadAsync(path);
        Assert.Equal(HttpStatusCode.OK, answer.StatusCode);
        return await answer.Content.ReadAsStringAsync(Stop);
    }

    private async Task<HttpStatusCode> StatusAsync(string path)
    {
        using var answer = await ReadAsync(path);
        return answer.StatusCode;
    }

    [Fact]
    public async Task Address_is_shown_once_and_holds_no_more_than_when_and_where()
    {
        var person = await PersonAsync();
        var visit = await VisitAsync(person, new(2026, 10, 6));
        var path = await MakeAsync(person);

        var calendar = await CalendarAsync(path);

        Assert.Matches("^/feed/[A-Za-z0-9_-]{43}\\.ics$", path);
        Assert.Contains($"UID:{visit.Id}\r\n", calendar, StringComparison.Ordinal);
        Assert.Contains("DTSTART;TZID=America/Los_Angeles:20261006T160000\r\n", calendar, StringComparison.Ordinal);
        Assert.Contains("LOCATION:home\r\n", calendar, StringComparison.Ordinal);
        foreach (var never in new[] { "Wren", "Belmares", "TF-014", "Corin", "Equipment", "vision" })
            Assert.DoesNotContain(never, calendar, StringComparison.OrdinalIgnoreCase);
        var again = await portal.PageAsync(person, "/account/feed");
        Assert.DoesNotContain(path, again.DocumentElement.OuterHtml, StringComparison.Ordinal);
        Assert.Contains("last read on 2 October 2026", again.Text("main"), StringComparison.Ordinal);
    }

    [Fact]
    public async Task Place_of_the_agencys_list_stands_by_its_code()
    {
        var person = await PersonAsync();
        var place = await portal.Agency.AddAsync(new PlaceRow { Code = "E7", Name = "East side", Kind = Place.School });
        await VisitAsync(person, new(2026, 10, 7), v => (v.Place, v.PlaceId) = (Place.School, place.Id));

        Assert.Contains("LOCATION:E7\r\n", await CalendarAsync(await MakeAsync(person)), StringComparison.Ordinal);
    }

    [Fact]
    public async Task Called_off_and_removed_visits_are_cancelled_and_other_peoples_are_not_there()
    {
        var (person, other) = (await PersonAsync(), await PersonAsync());
        var off = await VisitAsync(person, new(2026, 10, 8), v => (v.State, v.Sequence) = (VisitState.CalledOff, 2));
        var removed = await VisitAsync(person, new(2026, 10, 9), v => v.Live = false);
        await VisitAsync(other, new(2026, 10, 12));

        var calendar = await CalendarAsync(await MakeAsync(person));
        var visits = calendar.Split("BEGIN:VEVENT")[1..];

        Assert.Equal(2, visits.Length);
        Assert.All(visits, v => Assert.Contains("STATUS:CANCELLED\r\n", v, StringComparison.Ordinal));
        Assert.Contains($"UID:{off.Id}", visits[0], StringComparison.Ordinal);
        Assert.Contains("SEQUENCE:2\r\n", visits[0], StringComparison.Ordinal);
        Assert.Contains($"UID:{removed.Id}", visits[1], StringComparison.Ordinal);
    }

    [Fact]
    public async Task Visit_handed_over_is_cancelled_for_who_had_it_and_stands_for_who_has_it_until_it_comes_back()
    {
        var (first, second) = (await PersonAsync(), await PersonAsync());
        var visit = await VisitAsync(first, new(2026, 10, 14), v => v.Sequence = 3);
        var (firsts, seconds) = (await MakeAsync(first), await MakeAsync(second));
        Task GiveAsync(PersonRow to, LocalTime start) => portal.Agency.ChangeAsync<VisitRow>(v => v.Id == visit.Id, v =>
        {
            (v.ProviderId, v.Sequence) = (to.Id, v.Sequence + 1);
            v.TakePlace(v.OnDay, start, 30);
        });

        await GiveAsync(second, new(17, 0));
        var (had, has) = (await CalendarAsync(firsts), await CalendarAsync(seconds));
        await GiveAsync(first, new(18, 0));
        var (again, gone) = (await CalendarAsync(firsts), await CalendarAsync(seconds));

        string[] Lines(string calendar) => [.. calendar.Split("\r\n").Where(l => l.StartsWith("UID:", StringComparison.Ordinal) || l.StartsWith("SEQUENCE", StringComparison.Ordinal)
            || l.StartsWith("STATUS", StringComparison.Ordinal) || l.StartsWith("DTSTART;", StringComparison.Ordinal)).Select(l => l.Split(':')[^1])];
        Assert.Equal([$"{visit.Id}", "20261014T160000", "4", "CANCELLED"], Lines(had));
        Assert.Equal([$"{visit.Id}", "20261014T170000", "4", "CONFIRMED"], Lines(has));
        Assert.Equal([$"{visit.Id}", "20261014T180000", "5", "CONFIRMED"], Lines(again));
        Assert.Equal([$"{visit.Id}", "20261014T170000", "5", "CANCELLED"], Lines(gone));
    }

    [Fact]
    public async Task Who_holds_the_calendar_as_it_stands_gets_304_until_something_changes()
    {
        var person = await PersonAsync();
        var visit = await VisitAsync(person, new(2026, 10, 13));
        var path = await MakeAsync(person);
        using var first = await ReadAsync(path);
        var tag = first.Headers.ETag!.ToString();

        using var same = await ReadAsync(path, tag);
        await portal.Agency.ChangeAsync<VisitRow>(v => v.Id == visit.Id, v => { v.TakePlace(v.OnDay, new(17, 0), 30); v.Sequence++; });
        using var changed = await ReadAsync(path, tag);

        Assert.Equal((HttpStatusCode.OK, "text/calendar; charset=utf-8"), (first.StatusCode, first.Content.Headers.ContentType!.ToString()));
        Assert.Equal((HttpStatusCode.NotModified, tag, 0), (same.StatusCode, same.Headers.ETag!.ToString(), (await same.Content.ReadAsByteArrayAsync(Stop)).Length));
        Assert.Equal((true, true), (same.Headers.CacheControl!.Private, first.Headers.CacheControl!.Private));
        Assert.Equal(HttpStatusCode.OK, changed.StatusCode);
        Assert.Contains("T170000\r\n", await changed.Content.ReadAsStringAsync(Stop), StringComparison.Ordinal);
    }

    [Fact]
    public async Task New_address_ends_the_old_one_and_an_ended_one_leads_nowhere()
    {
        var person = await PersonAsync();
        var (old, renewed) = (await MakeAsync(person), await MakeAsync(person));

        Assert.Equal((HttpStatusCode.NotFound, HttpStatusCode.OK), (await StatusAsync(old), await StatusAsync(renewed)));
        var form = await FilledForm.OpenAsync(await portal.BrowserAsync(person), "/account/feed");
        using var ended = await form.SendAsync("End");

        Assert.Equal(HttpStatusCode.Redirect, ended.StatusCode);
        Assert.Equal(HttpStatusCode.NotFound, await StatusAsync(renewed));
        Assert.Contains("There is no address yet.", (await portal.PageAsync(person, "/account/feed")).Text("main"), StringComparison.Ordinal);
    }

    [Fact]
    public async Task Form_sent_twice_makes_one_address_and_one_sent_late_ends_no_newer_one()
    {
        var person = await PersonAsync();
        var browser = await portal.BrowserAsync(person);
        var form = await FilledForm.OpenAsync(browser, "/account/feed");
        var path = new Uri((await form.SendForAgainAsync()).Page.Text(".shown-link code")).AbsolutePath;
        var late = await FilledForm.OpenAsync(browser, "/account/feed");

        var again = await form.SendForAgainAsync();
        Assert.Contains("This form made its address already", again.Words, StringComparison.Ordinal);
        Assert.Null(again.Page.QuerySelector(".shown-link"));
        Assert.Equal(HttpStatusCode.OK, await StatusAsync(path));
        var renewed = new Uri((await again.SendForAgainAsync()).Page.Text(".shown-link code")).AbsolutePath;
        using var ended = await late.SendAsync("End");

        Assert.Equal((HttpStatusCode.NotFound, HttpStatusCode.OK), (await StatusAsync(path), await StatusAsync(renewed)));
    }

    [Fact]
    public async Task Two_addresses_made_at_once_leave_one_that_leads_somewhere()
    {
        var person = await PersonAsync();
        var made = await Task.WhenAll(Enumerable.Range(0, 4).Select(_ => MakeAsync(person)));

        var answers = new List<HttpStatusCode>();
        foreach (var path in made)
            answers.Add(await StatusAsync(path));
        Assert.Single(answers, HttpStatusCode.OK);
    }

    [Fact]
    public async Task Who_has_ended_is_read_by_nobody()
    {
        var person = await PersonAsync();
        var path = await MakeAsync(person);
        Assert.Equal(HttpStatusCode.OK, await StatusAsync(path));

        await portal.Agency.ChangeAsync<PersonRow>(p => p.Id == person.Id, p => p.EndedAt = Instant.FromUtc(2026, 10, 1, 0, 0));

        Assert.Equal(HttpStatusCode.NotFound, await StatusAsync(path));
    }

    [Theory]
    [InlineData("x")]
    [InlineData("AAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAA")]
    [InlineData("..%2F..%2Fsettings")]
    public async Task Key_that_was_never_made_is_not_found(string key)
    {
        using var answer = await ReadAsync($"/feed/{key}.ics");

        Assert.Equal(HttpStatusCode.NotFound, answer.StatusCode);
        Assert.True(answer.Headers.CacheControl!.NoStore);
    }

    [Fact]
    public async Task Address_never_reaches_the_log()
    {
        var person = await PersonAsync();
        var path = await MakeAsync(person);
        await CalendarAsync(path);
        await portal.PageAsync(person, "/account/feed");

        Assert.DoesNotContain(path[6..^4], await portal.ReadLogAsync("/account/feed"), StringComparison.Ordinal);
    }
}
