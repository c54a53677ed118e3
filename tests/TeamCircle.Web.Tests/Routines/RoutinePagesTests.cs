using System.Net;
using NodaTime;
using TeamCircle.Core.Learners;
using TeamCircle.Data.Calendar;
using TeamCircle.Data.Learners;
using TeamCircle.Data.People;

namespace TeamCircle.Web.Tests.Routines;

/// <summary>Routines over HTTP: added, planned at a visit and at home, logged, and shown on calendar, coverage and day strip. Each test has a learner of its own.</summary>
public sealed class RoutinePagesTests(TeamPortal portal) : IClassFixture<TeamPortal>
{
    private static int _learners;

    private static CancellationToken Stop => TestContext.Current.CancellationToken;

    private async Task<(LearnerRow Learner, VisitRow Visit)> LearnerAsync()
    {
        var number = Interlocked.Increment(ref _learners);
        var (agency, odalys) = (portal.Agency, portal.Team.Odalys);
        var learner = await agency.AddAsync(new LearnerRow { Code = $"TF-7{number:00}", Name = $"Ilse Corvane {number}", MostMinutesADay = 120 });
        await agency.AddAsync(new RelationRow { LearnerId = learner.Id, PersonId = odalys.Id, Kind = Core.People.Relation.Team, FromDay = new(2026, 8, 17) });
        var plan = await agency.AddAsync(new PlanRow { LearnerId = learner.Id, StartDay = new(2026, 8, 17), EndDay = new(2027, 5, 28) });
        var service = await agency.AddAsync(new ServiceRow
        {
            LearnerId = learner.Id,
            PlanId = plan.Id,
            Code = $"V-7{number:00}",
            Discipline = Discipline.Vision,
            FromDay = new(2026, 8, 17),
            ToDay = new(2027, 5, 28),
        });
        var visit = new VisitRow
        {
            Id = Guid.CreateVersion7(),
            LearnerId = learner.Id,
            ServiceId = service.Id,
            ProviderId = odalys.Id,
            Zone = "America/Los_Angeles",
            LearnersTime = true,
        };
        visit.TakePlace(new(2026, 10, 2), new LocalTime(6, 0).PlusMinutes(20 * number), 15);
        return (learner, await agency.AddAsync(visit));
    }

    private async Task<int> AddAsync(LearnerRow learner, string name = "Watering the herbs")
    {
        var form = await FilledForm.OpenAsync(await portal.BrowserAsync(portal.Team.Odalys), $"/learners/{learner.Id}/routines");
        using var added = await form.Type("Input.Name", name).Type("Input.ObjectCue", "the small can").SendAsync();
        Assert.Equal(HttpStatusCode.Redirect, added.StatusCode);
        return int.Parse(added.Headers.Location!.ToString().Split('/')[^1], System.Globalization.CultureInfo.InvariantCulture);
    }

    private async Task<FilledForm> PlanFormAsync(LearnerRow learner, int routine, string selector = "main form[method=post]") =>
        await FilledForm.OpenAsync(await portal.BrowserAsync(portal.Team.Odalys), $"/learners/{learner.Id}/routines/{routine}", selector);

    [Fact]
    public async Task Routine_is_planned_at_a_visit_logged_as_practised_and_seen_everywhere()
    {
        var (learner, visit) = await LearnerAsync();
        var routine = await AddAsync(learner);
        using var planned = await (await PlanFormAsync(learner, routine)).Tick("Visits.Ticked", $"v{visit.Id}").SendAsync();
        Assert.Equal(HttpStatusCode.Redirect, planned.StatusCode);

        Assert.Contains("To practise: Watering the herbs", (await portal.PageAsync(portal.Team.Odalys, $"/calendar?learner={learner.Id}&list=true")).Texts(".week-list .aside"));
        var strip = await portal.PageAsync(portal.Team.Odalys, $"/learners/{learner.Id}/day");
        Assert.Equal(["the small can"], strip.Texts(".strip .thing"));
        var before = await portal.PageAsync(portal.Team.Odalys, $"/learners/{learner.Id}/routines");
        Assert.Equal(["planned OF"], before.Texts(".coverage .cell"));
        Assert.Equal("Watering the herbs Nobody has logged it this week.", before.Text(".coverage tbody th"));

        var log = await FilledForm.OpenAsync(await portal.BrowserAsync(portal.Team.Odalys), $"/visits/{visit.Id}/log");
        Assert.DoesNotContain("checked", log.Page.QuerySelector("[name='Input.Routines']")!.OuterHtml, StringComparison.Ordinal);
        using var logged = await log.Tick("Input.Routines", $"{routine}").SendAsync();
        Assert.Equal(HttpStatusCode.Redirect, logged.StatusCode);
        Assert.Contains("Watering the herbs", (await portal.PageAsync(portal.Team.Odalys, $"/visits/{visit.Id}")).Text("dl.facts"), StringComparison.Ordinal);
        Assert.Equal(["practised OF"], (await portal.PageAsync(portal.Team.Odalys, $"/learners/{learner.Id}/routines?back=true")).Texts(".coverage .cell"));
        var correct = await FilledForm.OpenAsync(await portal.BrowserAsync(portal.Team.Odalys), $"/visits/{visit.Id}/correct");
        Assert.Contains("checked", correct.Page.QuerySelector("[name='Input.Routines']")!.OuterHtml, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Home_practice_stands_in_the_learners_week_and_on_the_strip()
    {
        var (learner, _) = await LearnerAsync();
        var routine = await AddAsync(learner);
        using var saved = await (await PlanFormAsync(learner, routine, "form[action*=Home]")).Tick("Home.Weekdays", "Friday").Type("Home.Who", "her mother").SendAsync("Home");
        Assert.Equal(HttpStatusCode.Redirect, saved.StatusCode);

        var week = await portal.PageAsync(portal.Team.Odalys, $"/calendar?learner={learner.Id}");
        Assert.Equal("Friday 2 October, her mother", week.Part("At home between visits").Text("li .what"));
        Assert.Equal("at home, Watering the herbs", (await portal.PageAsync(portal.Team.Odalys, $"/learners/{learner.Id}/day")).Text(".strip .when"));
        Assert.Contains("At home: Fridays (her mother)", (await portal.PageAsync(portal.Team.Odalys, $"/learners/{learner.Id}/routines")).Texts(".aside"));
    }

    [Fact]
    public async Task What_was_practised_at_home_is_written_down_seen_in_the_coverage_and_taken_back()
    {
        var (learner, _) = await LearnerAsync();
        var routine = await AddAsync(learner);
        var form = await FilledForm.OpenAsync(await portal.BrowserAsync(portal.Team.Odalys), $"/learners/{learner.Id}/at-home");
        Assert.Equal("2026-10-02", form["Input.OnDay"]);

        var again = await form.Type("Input.Routine", $"{routine}").Type("Input.HowItWent", "She laughed").SendForAgainAsync();
        Assert.Contains("Say who practised", again.Words, StringComparison.Ordinal);
        var saved = await again.Type("Input.Who", "her mother").SaveAsync();

        Assert.Contains("Written down for Friday 2 October.", saved, StringComparison.Ordinal);
        Assert.Contains("She laughed", saved, StringComparison.Ordinal);
        Assert.Contains("practised at home, her mother", (await portal.PageAsync(portal.Team.Odalys, $"/learners/{learner.Id}/routines")).Texts(".coverage .cell"));
        var back = await FilledForm.OpenAsync(await portal.BrowserAsync(portal.Team.Odalys), $"/learners/{learner.Id}/at-home", "form[action*=TakeBack]");
        Assert.Contains("Taken back.", await back.Type("Back.Why", "told of another day").SaveAsync("TakeBack"), StringComparison.Ordinal);
    }

    [Fact]
    public async Task Form_that_lacks_the_name_says_so_and_keeps_what_was_typed()
    {
        var (learner, _) = await LearnerAsync();
        var form = await FilledForm.OpenAsync(await portal.BrowserAsync(portal.Team.Odalys), $"/learners/{learner.Id}/routines");

        var again = await form.Type("Input.ObjectCue", "the red spoon").SendForAgainAsync();

        Assert.Contains("Give the routine the name that the team uses.", again.Words, StringComparison.Ordinal);
        Assert.Equal("the red spoon", again["Input.ObjectCue"]);
    }

    [Fact]
    public async Task Other_teams_and_the_family_find_nothing()
    {
        var (learner, _) = await LearnerAsync();
        var routine = await AddAsync(learner);
        foreach (var person in new[] { portal.Team.Bram, portal.Team.Ines })
        {
            foreach (var path in new[] { "routines", $"routines/{routine}", "day", "at-home" })
            {
                using var answer = await (await portal.BrowserAsync(person)).GetAsync(new Uri($"/learners/{learner.Id}/{path}", UriKind.Relative), Stop);
                Assert.Equal(HttpStatusCode.NotFound, answer.StatusCode);
            }
        }
        using var others = await (await portal.BrowserAsync(portal.Team.Odalys)).GetAsync(new Uri($"/learners/{portal.Team.Wren.Id}/routines/{routine}", UriKind.Relative), Stop);
        Assert.Equal(HttpStatusCode.NotFound, others.StatusCode); // of another learner
    }
}
