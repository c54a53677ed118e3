using System.Net;
using NodaTime;
using TeamCircle.Core.Learners;
using TeamCircle.Core.People;
using TeamCircle.Core.Routines;
using TeamCircle.Data.Calendar;
using TeamCircle.Data.Learners;
using TeamCircle.Data.People;
using TeamCircle.Data.Routines;

namespace TeamCircle.Web.Tests.Routines;

/// <summary>Holds over HTTP, by role: set, seen wherever the routine is planned, ended. Each test has a learner of its own.</summary>
public sealed class HoldPagesTests(TeamPortal portal) : IClassFixture<TeamPortal>
{
    private static readonly RoutineContent Card = new()
    {
        Position = "upright in the corner chair",
        Steps = [new("s1", StepKind.Shown, "Show the can", []), new("s2", StepKind.Response, "Presses", [])],
    };

    private static int _learners;

    private static CancellationToken Stop => TestContext.Current.CancellationToken;

    private async Task<(LearnerRow Learner, RoutineRow Herbs, VisitRow Visit)> LearnerAsync()
    {
        var number = Interlocked.Increment(ref _learners);
        var (agency, team) = (portal.Agency, portal.Team);
        var learner = await agency.AddAsync(new LearnerRow { Code = $"TF-8{number:00}", Name = $"Oren Vasko {number}", MostMinutesADay = 120 });
        foreach (var (person, relation) in new[] { (team.Odalys, Relation.Team), (team.Priya, Relation.Team), (team.Bram, Relation.Substitute), (team.Marisol, Relation.CaseManager) })
            await agency.AddAsync(new RelationRow { LearnerId = learner.Id, PersonId = person.Id, Kind = relation, FromDay = new(2026, 8, 17), ToDay = relation == Relation.Substitute ? new(2026, 10, 2) : null });
        var herbs = await agency.AddAsync(new RoutineRow { LearnerId = learner.Id, Name = "Watering the herbs" });
        await agency.AddAsync(new RoutineVersionRow { LearnerId = learner.Id, RoutineId = herbs.Id, Number = 1, Content = Card.Write(), WrittenBy = team.Odalys.Id });
        var visit = new VisitRow
        {
            Id = Guid.CreateVersion7(),
            LearnerId = learner.Id,
            Kind = Core.Calendar.VisitKind.EquipmentAndFitting,
            ProviderId = team.Odalys.Id,
            Zone = "America/Los_Angeles",
        };
        visit.TakePlace(new(2026, 10, 2), new LocalTime(17, 0).PlusMinutes(20 * number), 15);
        await agency.AddAsync(visit);
        await agency.AddAsync(new VisitRoutineRow { LearnerId = learner.Id, VisitId = visit.Id, RoutineId = herbs.Id });
        return (learner, herbs, visit);
    }

    private async Task<FilledForm> FormAsync(PersonRow person, string path) => await FilledForm.OpenAsync(await portal.BrowserAsync(person), path);

    private async Task<string> SetAsync(PersonRow person, LearnerRow learner, string on, string reason = "New chair: positions are not set yet.") =>
        await (await FormAsync(person, $"/learners/{learner.Id}/holds/new?on={on}")).Type("Input.Reason", reason).Type("Input.ToldAs", "Parent").Type("Input.ToldBy", "Ines Belmares").SaveAsync();

    [Fact]
    public async Task Substitute_sets_a_hold_and_it_stands_wherever_the_routine_is_planned_today()
    {
        var (learner, herbs, visit) = await LearnerAsync();

        var holds = await SetAsync(portal.Team.Bram, learner, $"r{herbs.Id}");

        Assert.Contains("Hold: Watering the herbs.", holds, StringComparison.Ordinal);
        Assert.Contains("On the word of Ines Belmares (parent), 2 October 2026; since 2 October 2026, 9:00 am, set by Bram Nakamura.", holds, StringComparison.Ordinal);
        foreach (var path in new[] { "/", $"/calendar?learner={learner.Id}&list=true", $"/visits/{visit.Id}", $"/learners/{learner.Id}" })
        {
            var words = (await portal.PageAsync(portal.Team.Odalys, path)).Text("main");
            Assert.True(words.Contains("New chair: positions are not set yet.", StringComparison.Ordinal), path);
            Assert.True(words.Contains("Ines Belmares (parent)", StringComparison.Ordinal), path);
        }
        Assert.Contains("Hold: Watering the herbs", (await portal.PageAsync(portal.Team.Odalys, $"/calendar?learner={learner.Id}")).Texts("svg .became"));
    }

    [Fact]
    public async Task Hold_on_a_part_and_on_a_step_are_set_from_where_they_stand()
    {
        var (learner, herbs, _) = await LearnerAsync();
        var page = await portal.PageAsync(portal.Team.Priya, $"/learners/{learner.Id}");
        Assert.NotNull(page.QuerySelector($"#Position a[href='/learners/{learner.Id}/holds/new?on=Position']"));

        await SetAsync(portal.Team.Priya, learner, "Position", "Hip surgery.");
        var holds = await SetAsync(portal.Team.Priya, learner, $"r{herbs.Id}.s2", "Elbow hurts.");

        Assert.Contains("Hold: How we teach: position.", holds, StringComparison.Ordinal);
        Assert.Contains("the step \"Presses\".", holds, StringComparison.Ordinal);
        Assert.Contains("Leave this step out.", holds, StringComparison.Ordinal);
        Assert.Contains("Hold: Hip surgery.", (await portal.PageAsync(portal.Team.Odalys, $"/learners/{learner.Id}")).Text("#Position"), StringComparison.Ordinal);
    }

    [Fact]
    public async Task Card_can_be_practised_around_a_held_step_and_not_under_a_hold_and_keeps_what_ended()
    {
        var (learner, _, _) = await LearnerAsync();
        var bell = await portal.Agency.AddAsync(new RoutineRow { LearnerId = learner.Id, Name = "Bell" });
        await portal.Agency.AddAsync(new RoutineVersionRow { LearnerId = learner.Id, RoutineId = bell.Id, Number = 1, Content = (Card with { Position = null }).Write(), WrittenBy = portal.Team.Odalys.Id });
        Task<AngleSharp.Html.Dom.IHtmlDocument> CardAsync() => portal.PageAsync(portal.Team.Odalys, $"/routines/{bell.Id}");
        var free = await CardAsync();
        Assert.NotNull(free.QuerySelector($"a[href='/routines/{bell.Id}/practise']"));
        foreach (var key in new[] { $"r{bell.Id}", $"r{bell.Id}.s2" })
            Assert.NotNull(free.QuerySelector($"a[href='/learners/{learner.Id}/holds/new?on={key}']"));

        await SetAsync(portal.Team.Odalys, learner, $"r{bell.Id}.s2", "Elbow hurts.");
        Assert.NotNull((await CardAsync()).QuerySelector($"a[href='/routines/{bell.Id}/practise']"));
        await SetAsync(portal.Team.Bram, learner, $"r{bell.Id}");

        var held = await CardAsync();
        Assert.Null(held.QuerySelector($"a[href='/routines/{bell.Id}/practise']"));
        Assert.Equal(["Hold: Bell. New chair: positions are not set yet.", "Hold: Bell, the step \"Presses\". Elbow hurts."], held.Texts(".hold > p:first-child"));
        var link = (await portal.PageAsync(portal.Team.Marisol, $"/learners/{learner.Id}/holds")).QuerySelector(".note a")!.GetAttribute("href")!;
        await (await FormAsync(portal.Team.Marisol, link)).Type("Input.Word", "Chair fitted.").Type("Input.AgreedBy", "Priya Lindqvist, physical therapist").SaveAsync();
        Assert.Contains("Chair fitted.", (await CardAsync()).Text("#holds"), StringComparison.Ordinal);
    }

    [Fact]
    public async Task Hold_on_a_service_stands_where_its_visits_are_logged_and_ends_by_its_own_discipline()
    {
        var (learner, _, _) = await LearnerAsync();
        var service = await portal.Agency.AddAsync(new ServiceRow
        {
            LearnerId = learner.Id,
            PlanId = (await portal.Agency.AddAsync(new PlanRow { LearnerId = learner.Id, StartDay = new(2026, 8, 17), EndDay = new(2027, 5, 28) })).Id,
            Code = $"V{learner.Id}",
            Discipline = Discipline.Vision,
            FromDay = new(2026, 8, 17),
            ToDay = new(2027, 5, 28),
        });
        await portal.Agency.AddAsync(new ServiceVersionRow { LearnerId = learner.Id, ServiceId = service.Id, Code = service.Code, FromDay = service.FromDay, Quantity = 30 });
        var visit = new VisitRow { Id = Guid.CreateVersion7(), LearnerId = learner.Id, ServiceId = service.Id, ProviderId = portal.Team.Odalys.Id, Zone = "America/Los_Angeles" };
        visit.TakePlace(new(2026, 10, 3), new(10, 0), 30);
        await portal.Agency.AddAsync(visit);

        var holds = await SetAsync(portal.Team.Priya, learner, $"service{service.Id}", "Eye surgery on Monday.");

        Assert.Contains("Hold: visits of vision.", holds, StringComparison.Ordinal);
        Assert.Contains("Practise nothing at these visits.", holds, StringComparison.Ordinal);
        foreach (var path in new[] { $"/visits/{visit.Id}", $"/visits/{visit.Id}/log" })
            Assert.Contains("Eye surgery on Monday.", (await portal.PageAsync(portal.Team.Odalys, path)).Text("main"), StringComparison.Ordinal);
        Assert.Empty((await portal.PageAsync(portal.Team.Odalys, "/")).QuerySelectorAll($"a[href='/learners/{learner.Id}/holds']")); // today's visit is of another kind
        Assert.Null((await portal.PageAsync(portal.Team.Priya, $"/learners/{learner.Id}/holds")).QuerySelector(".note a"));
        var link = (await portal.PageAsync(portal.Team.Odalys, $"/learners/{learner.Id}/holds")).QuerySelector(".note a")!.GetAttribute("href")!;
        await (await FormAsync(portal.Team.Odalys, link)).Type("Input.Word", "Seen by the physician.").SaveAsync();
        Assert.DoesNotContain("Eye surgery", (await portal.PageAsync(portal.Team.Odalys, $"/visits/{visit.Id}/log")).Text("main"), StringComparison.Ordinal);
    }

    [Fact]
    public async Task Form_says_what_is_missing_and_keeps_what_was_typed()
    {
        var (learner, _, _) = await LearnerAsync();
        var form = await FormAsync(portal.Team.Odalys, $"/learners/{learner.Id}/holds/new");

        var again = await form.Type("Input.ToldAs", "Nurse").Type("Input.ToldOn", "2026-10-03").SendForAgainAsync();

        foreach (var problem in new[] { "Choose what the hold lies on.", "letters why", "Give the name of the person who said so.", "That is still to come." })
            Assert.Contains(problem, again.Words, StringComparison.Ordinal);
        Assert.Equal(("Nurse", "2026-10-03"), (again["Input.ToldAs"], again["Input.ToldOn"]));
    }

    [Fact]
    public async Task Owning_discipline_ends_it_with_words_and_others_find_no_way_to()
    {
        var (learner, _, _) = await LearnerAsync();
        await SetAsync(portal.Team.Odalys, learner, "Position");
        var link = (await portal.PageAsync(portal.Team.Priya, $"/learners/{learner.Id}/holds")).QuerySelector(".note a")!.GetAttribute("href")!;
        foreach (var other in new[] { portal.Team.Odalys, portal.Team.Bram })
        {
            Assert.Null((await portal.PageAsync(other, $"/learners/{learner.Id}/holds")).QuerySelector(".note a"));
            using var answer = await (await portal.BrowserAsync(other)).GetAsync(new Uri(link, UriKind.Relative), Stop);
            Assert.Equal(HttpStatusCode.NotFound, answer.StatusCode);
        }
        var again = await (await FormAsync(portal.Team.Priya, link)).SendForAgainAsync();
        Assert.Contains("what has changed", again.Words, StringComparison.Ordinal);

        var after = await (await FormAsync(portal.Team.Priya, link)).Type("Input.Word", "Chair fitted; positions as written.").SaveAsync();

        Assert.Contains("No hold stands.", after, StringComparison.Ordinal);
        Assert.Contains("Ended on 2 October 2026, 9:00 am by Priya Lindqvist: Chair fitted; positions as written.", after, StringComparison.Ordinal);
        Assert.DoesNotContain("New chair", (await portal.PageAsync(portal.Team.Odalys, $"/learners/{learner.Id}")).Text("main"), StringComparison.Ordinal);
    }

    [Fact]
    public async Task Case_manager_names_the_licensed_person_who_agreed()
    {
        var (learner, herbs, _) = await LearnerAsync();
        await SetAsync(portal.Team.Odalys, learner, $"r{herbs.Id}");
        var link = (await portal.PageAsync(portal.Team.Marisol, $"/learners/{learner.Id}/holds")).QuerySelector(".note a")!.GetAttribute("href")!;
        var again = await (await FormAsync(portal.Team.Marisol, link)).Type("Input.Word", "Healed.").SendForAgainAsync();
        Assert.Contains("Name the licensed person who agreed, and their profession.", again.Words, StringComparison.Ordinal);

        var after = await again.Type("Input.AgreedBy", "Dr. Ada Weiss, physician").SaveAsync();

        Assert.Contains("by Marisol Quenby, agreed by Dr. Ada Weiss, physician: Healed.", after, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Other_teams_the_family_and_the_administrator_find_nothing()
    {
        var (learner, herbs, _) = await LearnerAsync();
        await SetAsync(portal.Team.Odalys, learner, $"r{herbs.Id}");
        foreach (var person in new[] { portal.Team.Tomasz, portal.Team.Ines, portal.Team.Dele })
        {
            foreach (var path in new[] { "holds", "holds/new" })
            {
                using var answer = await (await portal.BrowserAsync(person)).GetAsync(new Uri($"/learners/{learner.Id}/{path}", UriKind.Relative), Stop);
                Assert.Equal(HttpStatusCode.NotFound, answer.StatusCode);
            }
        }
    }

    [Fact]
    public async Task Administrator_sets_the_rules_of_practice()
    {
        var settings = await (await FormAsync(portal.Team.Dele, "/settings/practice")).Type("Input.ReviewMonths", "6").Type("Input.HoldContactHours", "12").SaveAsync();
        Assert.Contains("Practice", settings, StringComparison.Ordinal);
        var form = await FormAsync(portal.Team.Dele, "/settings/practice");
        Assert.Equal(("6", "12"), (form["Input.ReviewMonths"], form["Input.HoldContactHours"]));

        var again = await form.Type("Input.HoldContactHours", "0").SendForAgainAsync();

        Assert.Contains("from 1 to 168", again.Words, StringComparison.Ordinal);
        using var provider = await (await portal.BrowserAsync(portal.Team.Odalys)).GetAsync(new Uri("/settings/practice", UriKind.Relative), Stop);
        Assert.Equal(HttpStatusCode.NotFound, provider.StatusCode);
    }
}
