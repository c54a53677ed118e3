using System.Net;
using AngleSharp.Html.Dom;
using TeamCircle.Core.Practice;
using TeamCircle.Data.Practice;
using TeamCircle.Data.Progress;
using TeamCircle.Testing;

namespace TeamCircle.Web.Tests.Practice;

/// <summary>Time to respond, many hands and effects over HTTP. Each test has a routine or a goal of its own.</summary>
public sealed class WaitPagesTests(RecordingPortal portal) : IClassFixture<RecordingPortal>
{
    private static CancellationToken Stop => TestContext.Current.CancellationToken;

    private async Task<TestPractice> PractisedAsync(string name, int goal, params (int Person, string Side)[] practices)
    {
        var practice = await TestPractice.CreateAsync(portal.Agency, portal.Team, name, TestPractice.Card(goal));
        foreach (var (person, side) in practices)
        {
            var record = practice.Record() with { Conditions = new() { Side = side, State = new(StateOfLearner.QuietAlert) } };
            var outcome = await portal.Agency.Get<RecordPractice>().RunAsync(await portal.Team.CallerAsync(person), Guid.CreateVersion7(), new(record), Stop);
            Assert.NotNull(outcome.Value);
        }
        return practice;
    }

    private async Task<IHtmlDocument> PageAsync(string address, string person = "odalys") =>
        FilledForm.Parse(await (await portal.BrowserAsync(person)).GetStringAsync(new Uri(address, UriKind.Relative), Stop));

    [Fact]
    public async Task Curve_stands_with_its_numbers_its_wait_and_what_it_cannot_say()
    {
        var goal = await portal.Team.GoalAsync(portal.Team.Wren, portal.Team.Odalys);
        var (odalys, bram) = (portal.Team.Odalys, portal.Team.Bram);
        var practice = await PractisedAsync("Herbs", goal.Id, [(odalys, "left"), (odalys, "Left."), (odalys, "right"), (bram, "left"), (bram, "left"), (bram, "right")]);

        var page = await PageAsync($"/routines/{practice.Version.RoutineId}/wait");
        var facts = page.QuerySelectorAll("#curve dl.facts dd").Select(d => d.TextContent.Trim()).ToList();

        Assert.Equal(["12, 6 with a response before any help", "10 s, at least 10 s", "50 percent, between 26 and 79", "12 s"], facts);
        Assert.Contains("6 responses came in the last quarter", page.Text("#curve .hold-line"), StringComparison.Ordinal);
        Assert.Contains("What a longer wait would have caught cannot be known", page.Text("#curve"), StringComparison.Ordinal);
        Assert.Equal("0.5", page.QuerySelector("#numbers [data-reading='10'] data")!.GetAttribute("value"));
        Assert.Equal("12", page.QuerySelector("[data-wait-chart='numbers']")!.GetAttribute("data-waits"));
        Assert.Equal([
            "Left nobody said quiet alert 8 too few trials (have 8, need 10) too few trials (have 8, need 10)",
            "Right nobody said quiet alert 4 too few trials (have 4, need 10) too few trials (have 4, need 10)",
        ], page.Part("Side, position and state together").Texts("tbody tr"));
        Assert.Equal(["Bram Nakamura", "Odalys Ferreira"], page.Texts("#people tbody th").Order());
    }

    [Fact]
    public async Task Another_number_of_seconds_is_compared_at()
    {
        var goal = await portal.Team.GoalAsync(portal.Team.Wren, portal.Team.Odalys);
        await PractisedAsync("Ribbons", goal.Id, [.. Enumerable.Repeat((portal.Team.Odalys, "left"), 5)]);

        var page = await PageAsync($"/goals/{goal.Id}/wait?by=9");

        Assert.Contains("Responded within 9 s 0 percent", page.Text("#curve dl.facts"), StringComparison.Ordinal);
        Assert.Equal("9", page.QuerySelector("#by")!.GetAttribute("value"));
        Assert.Contains("Responded within 12 s", (await PageAsync($"/goals/{goal.Id}/wait?by=ten")).Text("#curve dl.facts"), StringComparison.Ordinal);
    }

    [Fact]
    public async Task Few_trials_have_no_curve_and_say_so()
    {
        var goal = await portal.Team.GoalAsync(portal.Team.Wren, portal.Team.Odalys);
        var practice = await PractisedAsync("Towel", goal.Id, [(portal.Team.Odalys, "left")]);

        var page = await PageAsync($"/routines/{practice.Version.RoutineId}/wait");

        Assert.Contains("2 trials with a time; a curve is shown from 10 on.", page.Text("#curve"), StringComparison.Ordinal);
        Assert.Null(page.QuerySelector("[data-wait-chart]"));
    }

    [Fact]
    public async Task Many_hands_stand_side_by_side_without_blame()
    {
        var goal = await portal.Team.GoalAsync(portal.Team.Wren, portal.Team.Odalys);
        var practice = await PractisedAsync("Shake", goal.Id, [(portal.Team.Odalys, "left"), (portal.Team.Odalys, "left"), (portal.Team.Bram, "left")]);

        var page = await PageAsync($"/routines/{practice.Version.RoutineId}/hands", "bram");

        Assert.Equal([
            "Odalys Ferreira 2 2 of 4 (50 percent, between 15 and 85) as many as with the others, between 54 fewer and 54 more: it may be none too few trials (have 4, need 10) 4 of 4 steps 4 of 4 trials",
            "Bram Nakamura 1 1 of 2 (50 percent, between 9 and 91) as many as with the others, between 54 fewer and 54 more: it may be none too few trials (have 2, need 10) 2 of 2 steps 2 of 2 trials",
        ], page.Texts("main table tbody tr"));
        Assert.Contains("is no judgment of anybody", page.Text("main"), StringComparison.Ordinal);
        Assert.Contains("No practice of it was scored a second time.", page.Text("#agreement"), StringComparison.Ordinal);
    }

    [Fact]
    public async Task Effects_say_their_names_their_authors_and_what_is_missing()
    {
        var goal = await portal.Team.GoalAsync(portal.Team.Wren, portal.Team.Odalys);
        await AddProbesAsync(goal.Id, (1, 20), (2, 30));
        Assert.Equal(["too few points (have 2, need 3)"], (await PageAsync($"/goals/{goal.Id}/record")).Texts("td[data-label=Figure]").Select(t => t.ToLowerInvariant()).Distinct());
        await AddProbesAsync(goal.Id, (3, 30), (8, 50), (9, 60), (10, 55));

        var page = await PageAsync($"/goals/{goal.Id}/record");

        Assert.StartsWith("Non-overlap of all pairs (NAP) Parker and Vannest 2009", page.Text("main table tbody tr"), StringComparison.Ordinal);
        Assert.Contains("no pair overlaps, and the interval has no width: that is no certainty", page.Text("main table tbody tr"), StringComparison.Ordinal);
        Assert.Contains("100 percent", page.Texts("td[data-label=Figure]"));
    }

    [Theory]
    [InlineData("routines", "wait")]
    [InlineData("routines", "hands")]
    public async Task Family_finds_none_of_it(string of, string page)
    {
        var goal = await portal.Team.GoalAsync(portal.Team.Wren, portal.Team.Odalys);
        var practice = await PractisedAsync($"Hidden {page}", goal.Id);

        using var answer = await (await portal.BrowserAsync("ines")).GetAsync(new Uri($"/{of}/{practice.Version.RoutineId}/{page}", UriKind.Relative), Stop);

        Assert.Equal(HttpStatusCode.NotFound, answer.StatusCode);
    }

    private async Task AddProbesAsync(int goal, params (int Day, decimal Value)[] probes)
    {
        foreach (var (day, value) in probes)
        {
            await portal.Agency.AddAsync(new ProbeRow
            {
                Id = Guid.CreateVersion7(),
                LearnerId = portal.Team.Wren,
                GoalId = goal,
                ProviderId = portal.Team.Odalys,
                RecordedBy = portal.Team.Odalys,
                OnDay = new(2026, 9, day),
                Value = value,
                Opportunities = 10,
                Kind = Core.Progress.ProbeKind.Probe,
                Stage = day < 7 ? Core.Progress.Stage.BeforeTeaching : Core.Progress.Stage.DuringTeaching,
            });
        }
    }
}
