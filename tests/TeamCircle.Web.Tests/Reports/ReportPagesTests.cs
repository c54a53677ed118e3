using System.Net;
using Microsoft.EntityFrameworkCore;
using NodaTime;
using TeamCircle.Core.People;
using TeamCircle.Core.Progress;
using TeamCircle.Core.Time;
using TeamCircle.Data;
using TeamCircle.Data.Learners;
using TeamCircle.Data.People;
using TeamCircle.Data.Progress;

namespace TeamCircle.Web.Tests.Reports;

/// <summary>A progress report over HTTP: written by three, joined, signed, shared, corrected. Each test has a learner of its own.</summary>
public sealed class ReportPagesTests(TeamPortal portal) : IClassFixture<TeamPortal>
{
    private static int _learners;

    /// <summary>A learner with a goal of two owners that was probed, and one of a third person that was not.</summary>
    private sealed record World(LearnerRow Learner, GoalRow Press, GoalRow Hands);

    private async Task<World> WorldAsync()
    {
        var number = Interlocked.Increment(ref _learners);
        var (agency, team) = (portal.Agency, portal.Team);
        var learner = await agency.AddAsync(new LearnerRow { Code = $"TF-7{number:00}", Name = $"Oren Vasko {number}", MostMinutesADay = 120 });
        foreach (var (person, relation) in new[] { (team.Odalys, Relation.Team), (team.Bram, Relation.Team), (team.Tomasz, Relation.Team), (team.Marisol, Relation.CaseManager), (team.Ines, Relation.Family) })
            await agency.AddAsync(new RelationRow { LearnerId = learner.Id, PersonId = person.Id, Kind = relation, FromDay = new(2026, 8, 17) });
        var plan = await agency.AddAsync(new PlanRow { LearnerId = learner.Id, StartDay = new(2026, 8, 17), EndDay = new(2027, 5, 28) });
        var press = await GoalAsync(plan, "Switch use", $"R{number}A", team.Odalys, team.Bram);
        var hands = await GoalAsync(plan, "Hands", $"R{number}B", team.Tomasz);
        foreach (var (day, value) in new[] { (new LocalDate(2026, 9, 8), 2), (new LocalDate(2026, 9, 15), 6), (new LocalDate(2026, 9, 22), 5), (new LocalDate(2026, 9, 29), 7) })
            await agency.AddAsync(new ProbeRow { Id = Guid.CreateVersion7(), LearnerId = learner.Id, GoalId = press.Id, ProviderId = team.Odalys.Id, OnDay = day, Value = value, Opportunities = 8, Kind = ProbeKind.Probe, RecordedBy = team.Odalys.Id });
        return new(learner, press, hands);
    }

    private async Task<GoalRow> GoalAsync(PlanRow plan, string area, string code, params PersonRow[] owners)
    {
        var goal = await portal.Agency.AddAsync(new GoalRow
        {
            LearnerId = plan.LearnerId,
            PlanId = plan.Id,
            Code = code,
            Position = code[^1],
            Area = area,
            Statement = $"{area}, as the plan says it.",
            Measure = Measure.ResponsesOf,
            Baseline = 3,
            TeachingFrom = new(2026, 9, 1),
            Target = 8,
            TargetDay = new(2027, 5, 14),
            FromDay = plan.StartDay,
            ToDay = plan.EndDay,
        });
        await portal.Agency.AddAsync(new ProbeCommitmentRow { LearnerId = plan.LearnerId, GoalId = goal.Id, FromDay = plan.StartDay, Probes = 1, EveryUnit = EveryUnit.Week });
        foreach (var owner in owners)
            await portal.Agency.AddAsync(new GoalOwnerRow { LearnerId = plan.LearnerId, GoalId = goal.Id, PersonId = owner.Id, FromDay = plan.StartDay, ToDay = plan.EndDay });
        return goal;
    }

    private async Task<FilledForm> FormAsync(PersonRow person, string path, string selector = "main form[method=post]") =>
        await FilledForm.OpenAsync(await portal.BrowserAsync(person), path, selector);

    private async Task<HttpStatusCode> StatusAsync(PersonRow person, string path) => (await (await portal.BrowserAsync(person)).GetAsync(new Uri(path, UriKind.Relative))).StatusCode;

    private async Task<string> BegunAsync(World world, PersonRow by)
    {
        using var answer = await (await FormAsync(by, $"/learners/{world.Learner.Id}/reports", "main form.then")).SendAsync();
        Assert.Equal(HttpStatusCode.Redirect, answer.StatusCode);
        return answer.Headers.Location!.ToString();
    }

    private async Task JoinAsync(PersonRow by, string report, GoalRow goal, string status, string? words, string? reason = null)
    {
        var form = (await FormAsync(by, $"{report}/goals/{goal.Id}", "#joined form")).Type("Input.Status", status).Type("Input.Reason", reason ?? "");
        await (words is null ? form : form.Type("Input.Words", words)).SaveAsync();
    }

    private async Task<string> SignAsync(PersonRow by, string report, string credential, bool finish = false, string? without = null)
    {
        var form = (await FormAsync(by, $"{report}/sign")).Type("Input.Credential", credential);
        if (finish)
            form.Type("Input.Finish", "true");
        if (without is not null)
            form.Type("Input.Without", without);
        return await form.SaveAsync();
    }

    /// <summary>Written, joined, signed by all and finished.</summary>
    private async Task<string> FinishedAsync(World world, string status = "EnoughProgress")
    {
        var team = portal.Team;
        var report = await BegunAsync(world, team.Odalys);
        await JoinAsync(team.Bram, report, world.Press, status, "Presses when the can is shown.");
        await JoinAsync(team.Tomasz, report, world.Hands, "NotWorkedOn", null, "The mount was on order.");
        foreach (var owner in new[] { team.Odalys, team.Bram, team.Tomasz })
            await SignAsync(owner, report, "licence 555-0100");
        await SignAsync(team.Marisol, report, "special education licence 555-0101", finish: true);
        return report;
    }

    [Fact]
    public async Task Report_begins_with_the_figures_on_record()
    {
        var world = await WorldAsync();

        var report = await BegunAsync(world, portal.Team.Odalys);

        var page = await portal.PageAsync(portal.Team.Bram, report);
        var press = page.Text($"#goal-{world.Press.Id}");
        Assert.Contains("6 responses: the middle of 6 of 8 (15 September), 5 of 8 (22 September) and 7 of 8 (29 September)", press, StringComparison.Ordinal);
        Assert.Contains("3 responses more than the baseline, which is better", press, StringComparison.Ordinal);
        Assert.Contains("8 responses by 14 May 2027", press, StringComparison.Ordinal);
        Assert.Contains("No probe was taken in this period", page.Text($"#goal-{world.Hands.Id}"), StringComparison.Ordinal);
        Assert.Contains("Being written.", page.Text(".head"), StringComparison.Ordinal);
    }

    [Fact]
    public async Task Probes_are_counted_in_weeks_that_are_past()
    {
        var world = await WorldAsync();
        var report = await BegunAsync(world, portal.Team.Odalys);

        // Six weeks from 17 August on are past on 2 October; three of them had a probe. That of 29 September lies in the week that is still open.
        Assert.Contains("3 of 6 that were due", (await portal.PageAsync(portal.Team.Odalys, report)).Text($"#goal-{world.Press.Id}"), StringComparison.Ordinal);
    }

    [Fact]
    public async Task Three_write_one_joins_all_sign_and_the_family_reads_it_only_once_shared()
    {
        var (world, team) = (await WorldAsync(), portal.Team);
        var report = await BegunAsync(world, team.Marisol);
        await (await FormAsync(team.Odalys, $"{report}/goals/{world.Press.Id}", "#own form")).Type("Own.Words", "She looks at the can first.").SaveAsync("Part");
        await (await FormAsync(team.Bram, $"{report}/goals/{world.Press.Id}", "#own form")).Type("Own.Words", "Her elbow leads.").SaveAsync("Part");
        var joining = await FormAsync(team.Bram, $"{report}/goals/{world.Press.Id}", "#joined form");
        Assert.Equal("She looks at the can first.\n\nHer elbow leads.", joining["Input.Words"]!.ReplaceLineEndings("\n"));
        await joining.Type("Input.Status", "EnoughProgress").Type("Input.Words", "She looks at the can, and her elbow leads.").SaveAsync("Join");
        await JoinAsync(team.Tomasz, report, world.Hands, "NotWorkedOn", null, "The mount was on order.");
        Assert.Equal(HttpStatusCode.NotFound, await StatusAsync(team.Ines, $"/family/{world.Learner.Id}{report}"));

        foreach (var owner in new[] { team.Odalys, team.Bram, team.Tomasz })
            Assert.Contains("You have signed the report.", await SignAsync(owner, report, "licence 555-0100"), StringComparison.Ordinal);
        var finished = await SignAsync(team.Marisol, report, "special education licence 555-0101", finish: true);
        Assert.Contains("As case manager: the report is complete", finished, StringComparison.Ordinal);
        Assert.Equal(HttpStatusCode.NotFound, await StatusAsync(team.Ines, $"/family/{world.Learner.Id}{report}"));
        await (await FormAsync(team.Marisol, report, "form[action*=Share]")).SaveAsync();

        var read = (await portal.PageAsync(team.Ines, $"/family/{world.Learner.Id}{report}")).Text("main");
        Assert.Contains("Oren is on the way to learn this in time.", read, StringComparison.Ordinal);
        Assert.Contains("She looks at the can, and her elbow leads.", read, StringComparison.Ordinal);
        Assert.Contains("This was not worked on: The mount was on order.", read, StringComparison.Ordinal);
        Assert.DoesNotContain("She looks at the can first.", read, StringComparison.Ordinal);
        Assert.NotNull((await portal.PageAsync(team.Ines, $"/family/{world.Learner.Id}")).QuerySelector($"a[href='/family/{world.Learner.Id}{report}']"));
        await (await FormAsync(team.Marisol, report, "form[action*=Share]")).SaveAsync();
        Assert.Equal(HttpStatusCode.NotFound, await StatusAsync(team.Ines, $"/family/{world.Learner.Id}{report}"));
    }

    [Fact]
    public async Task Change_after_a_signature_asks_for_it_again_and_keeps_the_old_one_on_record()
    {
        var (world, team) = (await WorldAsync(), portal.Team);
        var report = await BegunAsync(world, team.Odalys);
        await JoinAsync(team.Bram, report, world.Press, "EnoughProgress", "Presses when the can is shown.");
        await JoinAsync(team.Tomasz, report, world.Hands, "NotWorkedOn", null, "The mount was on order.");
        await SignAsync(team.Odalys, report, "licence 555-0100");
        var open = await FormAsync(team.Bram, $"{report}/sign");

        await JoinAsync(team.Odalys, report, world.Press, "EnoughProgress", "Presses when the can is shown, three times of four.");

        var page = await portal.PageAsync(team.Bram, report);
        Assert.Contains("Not signed yet: Odalys Ferreira, Bram Nakamura and Tomasz Abiolek.", page.Text("main"), StringComparison.Ordinal);
        Assert.Contains("The report changed after it.", page.Text("main"), StringComparison.Ordinal);
        var late = await open.Type("Input.Credential", "licence").SendForAgainAsync();
        Assert.Contains("The report has changed since you opened this page.", late.Words, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Nobody_signs_half_a_report_and_a_missing_signature_needs_a_word()
    {
        var (world, team) = (await WorldAsync(), portal.Team);
        var report = await BegunAsync(world, team.Odalys);
        await JoinAsync(team.Bram, report, world.Press, "EnoughProgress", "Presses when the can is shown.");
        var early = await portal.PageAsync(team.Odalys, $"{report}/sign");
        Assert.Contains("One goal has no joined paragraph yet.", early.Text("main"), StringComparison.Ordinal);
        Assert.Null(early.QuerySelector("main form"));
        await JoinAsync(team.Tomasz, report, world.Hands, "NotWorkedOn", null, "The mount was on order.");

        var refused = await (await FormAsync(team.Marisol, $"{report}/sign")).Type("Input.Credential", "licence").Type("Input.Finish", "true").SendForAgainAsync();
        Assert.Contains("Not every owner has signed what stands now.", refused.Words, StringComparison.Ordinal);
        var words = await refused.Type("Input.Without", "Bram has left; nobody has followed him.").SaveAsync();

        Assert.Contains("Finished without every owner's signature: Bram has left; nobody has followed him.", words, StringComparison.Ordinal);
        Assert.Equal(HttpStatusCode.Redirect, await StatusAsync(team.Bram, $"{report}/goals/{world.Press.Id}"));
        Assert.Equal(HttpStatusCode.Redirect, await StatusAsync(team.Bram, $"{report}/sign"));
    }

    [Fact]
    public async Task Progress_that_is_not_enough_opens_a_review_that_waits_until_somebody_says_what_came_of_it()
    {
        var (world, team) = (await WorldAsync(), portal.Team);
        var report = await FinishedAsync(world, "NotEnough");

        var today = (await portal.PageAsync(team.Odalys, "/")).QuerySelector($"a[href='{report}#goal-{world.Press.Id}']");
        Assert.Equal("progress was not enough: look at the teaching", today?.TextContent);
        Assert.Null((await portal.PageAsync(team.Tomasz, "/")).QuerySelector($"a[href^='{report}']"));
        await (await FormAsync(team.Odalys, $"{report}/goals/{world.Press.Id}/review")).Type("Input.Word", "The wait goes from 8 to 12 seconds.").SaveAsync();

        Assert.Contains("Looked at by the team: The wait goes from 8 to 12 seconds.", (await portal.PageAsync(team.Bram, report)).Text("main"), StringComparison.Ordinal);
        Assert.Null((await portal.PageAsync(team.Odalys, "/")).QuerySelector($"a[href^='{report}']"));
        Assert.Equal(HttpStatusCode.Redirect, await StatusAsync(team.Odalys, $"{report}/goals/{world.Press.Id}/review"));
    }

    [Fact]
    public async Task Correction_begins_another_edition_and_takes_the_old_one_from_the_family()
    {
        var (world, team) = (await WorldAsync(), portal.Team);
        var report = await FinishedAsync(world);
        await (await FormAsync(team.Marisol, report, "form[action*=Share]")).SaveAsync();

        var next = await (await FormAsync(team.Marisol, $"{report}/correct")).Type("Input.Reason", "A probe was Jonah's.").SaveAsync();

        Assert.Contains("edition 2. Being written.", next, StringComparison.Ordinal);
        Assert.Contains("Presses when the can is shown.", next, StringComparison.Ordinal);
        Assert.Contains("Nobody has signed what stands now.", next, StringComparison.Ordinal);
        Assert.Equal(HttpStatusCode.NotFound, await StatusAsync(team.Ines, $"/family/{world.Learner.Id}{report}"));
        var old = (await portal.PageAsync(team.Odalys, report)).Text("main");
        foreach (var words in new[] { "Another edition stands in its place.", "A probe was Jonah's.", "licence 555-0100" })
            Assert.Contains(words, old, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Only_owners_and_the_case_manager_write_and_only_the_case_manager_shares()
    {
        var (world, team) = (await WorldAsync(), portal.Team);
        var report = await BegunAsync(world, team.Odalys);
        Assert.Equal(HttpStatusCode.Redirect, await StatusAsync(team.Tomasz, $"{report}/goals/{world.Press.Id}"));
        Assert.Equal(HttpStatusCode.OK, await StatusAsync(team.Marisol, $"{report}/goals/{world.Press.Id}"));
        Assert.Equal(HttpStatusCode.NotFound, await StatusAsync(team.Ines, report));
        Assert.Equal(HttpStatusCode.NotFound, await StatusAsync(team.Priya, report));

        var finished = await FinishedAsync(await WorldAsync());
        Assert.Empty((await portal.PageAsync(team.Odalys, finished)).QuerySelectorAll("form[action*=Share]"));
        Assert.Equal(HttpStatusCode.NotFound, await StatusAsync(team.Odalys, $"{finished}/correct"));
    }

    [Fact]
    public async Task Paragraph_and_signature_wait_on_the_page_of_the_day()
    {
        var (world, team) = (await WorldAsync(), portal.Team);
        var report = await BegunAsync(world, team.Odalys);
        async Task<string?> WaitsAsync(PersonRow person) => (await portal.PageAsync(person, "/")).QuerySelector($"a[href^='{report}']")?.TextContent;
        Assert.Equal("your paragraph about a goal", await WaitsAsync(team.Bram));

        await (await FormAsync(team.Bram, $"{report}/goals/{world.Press.Id}", "#own form")).Type("Own.Words", "Her elbow leads.").SaveAsync("Part");
        Assert.Null(await WaitsAsync(team.Bram));
        await JoinAsync(team.Bram, report, world.Press, "Maintained", "Her elbow leads.");
        await JoinAsync(team.Tomasz, report, world.Hands, "NeedsMeeting", "We have to talk.");

        Assert.Equal("your signature", await WaitsAsync(team.Bram));
        await SignAsync(team.Bram, report, "licence 555-0100");
        Assert.Null(await WaitsAsync(team.Bram));
    }

    [Fact]
    public async Task Forms_keep_what_was_typed_and_an_overtaken_one_is_shown_again()
    {
        var (world, team) = (await WorldAsync(), portal.Team);
        var report = await BegunAsync(world, team.Odalys);
        var slow = await FormAsync(team.Odalys, $"{report}/goals/{world.Press.Id}", "#joined form");
        await JoinAsync(team.Bram, report, world.Press, "Maintained", "Her elbow leads.");

        var again = await slow.Type("Input.Status", "Mastered").Type("Input.Words", "She has it.").SendAsync("Join");
        Assert.Equal(HttpStatusCode.Conflict, again.StatusCode);
        Assert.Contains("She has it.", await again.Content.ReadAsStringAsync(), StringComparison.Ordinal);
        var empty = await (await FormAsync(team.Odalys, $"{report}/goals/{world.Press.Id}", "#joined form")).Type("Input.Status", "NotWorkedOn").Type("Input.Reason", "").SendForAgainAsync("Join");
        Assert.Contains("Say why the goal was not worked on.", empty.Words, StringComparison.Ordinal);
        again.Dispose();
    }

    [Fact]
    public async Task Database_itself_shows_a_family_no_draft_and_no_single_paragraph()
    {
        var (world, team) = (await WorldAsync(), portal.Team);
        var report = await BegunAsync(world, team.Odalys);
        await (await FormAsync(team.Odalys, $"{report}/goals/{world.Press.Id}", "#own form")).Type("Own.Words", "She looks first.").SaveAsync("Part");
        var ines = Scope.OfLearner((await portal.Agency.CallerAsync(team.Ines.Id))!, world.Learner.Id);
        Task<int> SeenAsync() => portal.Agency.Portal.ReadAsync(ines, async db =>
            (await db.Reports.CountAsync()) + (await db.ReportGoals.CountAsync()) + (await db.ReportParts.CountAsync()) + (await db.ReportSignatures.CountAsync()));
        Assert.Equal(0, await SeenAsync());

        await JoinAsync(team.Bram, report, world.Press, "Maintained", "Her elbow leads.");
        await JoinAsync(team.Tomasz, report, world.Hands, "NeedsMeeting", "We have to talk.");
        await SignAsync(team.Marisol, report, "licence", finish: true, "The others are away.");
        Assert.Equal(0, await SeenAsync());
        await (await FormAsync(team.Marisol, report, "form[action*=Share]")).SaveAsync();

        Assert.Equal(4, await SeenAsync()); // the report, its two goals, one signature; no paragraph of its own
    }
}
