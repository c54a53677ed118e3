using Microsoft.EntityFrameworkCore;
using NodaTime;
using TeamCircle.Core.Calendar;
using TeamCircle.Core.Commitments;
using TeamCircle.Data.Calendar;
using TeamCircle.Data.Commitments;
using TeamCircle.Data.Learners;
using TeamCircle.Data.Tests.Learners;
using TeamCircle.Testing.Postgres;

namespace TeamCircle.Data.Tests.Calendar;

/// <summary>What a change of the calendar or the policy would do is shown first, and then that is what it does.</summary>
public sealed class StatusPreviewTests(TestDatabase database) : IClassFixture<TestDatabase>
{
    /// <summary>All of Period 2.</summary>
    private static AddClosure.Input LongBreak(string? reason) => new()
    {
        Name = "Flood",
        Kind = ClosureKind.Published,
        FirstDay = new(2026, 10, 19),
        LastDay = new(2026, 12, 18),
        Reason = reason,
    };

    [Fact]
    public async Task A_preview_names_the_statuses_that_saving_then_changes_and_leaves_nothing_behind()
    {
        await using var agency = await PlanAgency.CreateAsync(database, "PRE1");
        await agency.AddServiceAsync();
        var (add, caller) = (agency.Agency.Get<AddClosure>(), await agency.CallerAsync(agency.Dele));
        var before = await StatusesAsync(agency);

        var preview = PlanAgency.Must(await add.PreviewAsync(caller, LongBreak(null)));

        Assert.Equal(before, await StatusesAsync(agency));
        Assert.Equal(0, await agency.Agency.Portal.ReadAsync(agency.Agency.WholeAgency, db => db.Closures.CountAsync()));
        var change = Assert.Single(preview.First);
        Assert.Equal(("Wren Belmares", "Period 2", Status.NotPlanned, Status.NothingDue, 9 * 60, 0), (change.Learner, change.Period, change.Before, change.After, change.OwedBefore, change.OwedAfter));
        Assert.Equal((1, 1), (preview.Statuses, preview.Amounts));

        PlanAgency.Must(await add.RunAsync(caller, Guid.CreateVersion7(), LongBreak("The river")));
        Assert.Equal([before[0], Status.NothingDue], await StatusesAsync(agency));
    }

    [Fact]
    public async Task A_preview_of_what_cannot_be_saved_says_why()
    {
        await using var agency = await PlanAgency.CreateAsync(database, "PRE2");
        var input = LongBreak(null);
        input.LastDay = new(2026, 10, 1);

        var preview = await agency.Agency.Get<AddClosure>().PreviewAsync(await agency.CallerAsync(agency.Dele), input);
        var foreign = await agency.Agency.Get<AddClosure>().PreviewAsync(await agency.CallerAsync(agency.Marisol), LongBreak(null));

        Assert.Equal("LastDay", Assert.Single(preview.Problems).Field);
        Assert.Equal(Core.Problem.NotFound, Assert.Single(foreign.Problems));
    }

    [Fact]
    public async Task A_policy_is_previewed_from_its_period_on_before_reason_and_second_person_are_given()
    {
        await using var agency = await PlanAgency.CreateAsync(database, "PRE3");
        await agency.AddServiceAsync();
        await agency.Agency.AddAsync(new ClosureRow { OnDay = new(2026, 11, 26), Name = "Thanksgiving Day", Kind = ClosureKind.Published });

        var preview = PlanAgency.Must(await agency.Agency.Get<ChangePolicy>().PreviewAsync(
            await agency.CallerAsync(agency.Dele), new() { FromDay = new(2026, 10, 19), ShortWindow = ShortWindow.Prorated }));

        Assert.Equal((0, 1), (preview.Statuses, preview.Amounts));
        Assert.Equal(0, await agency.Agency.Portal.ReadAsync(agency.Agency.WholeAgency, db => db.Policies.CountAsync()));
    }

    [Fact]
    public async Task A_day_after_a_closed_count_that_moves_a_window_out_of_it_is_refused()
    {
        await using var agency = await PlanAgency.CreateAsync(database, "PRE4");
        await agency.AddServiceAsync();
        await agency.CloseAsync(new(2026, 10, 1)); // the last week of that period closes on Friday, 16 October
        async Task<IReadOnlyList<Core.Problem>> AddExtraAsync(LocalDate day) => (await agency.Agency.Get<AddClosure>().RunAsync(
            await agency.CallerAsync(agency.Dele), Guid.CreateVersion7(),
            new() { Name = "Make-up day", Kind = ClosureKind.Extra, FirstDay = day, Reason = "Snow" })).Problems;

        Assert.Contains("Period 1", Assert.Single(await AddExtraAsync(new(2026, 10, 17))).Message, StringComparison.Ordinal);
        Assert.Empty(await AddExtraAsync(new(2026, 10, 24)));
    }

    [Fact]
    public async Task What_is_taken_back_is_in_no_audit()
    {
        await using var agency = await PlanAgency.CreateAsync(database, "PRE5");
        var (service, goal) = (await agency.AddServiceAsync(), await agency.AddGoalAsync());
        Assert.Equal(4, (await StatusesAsync(agency)).Count); // a service and a goal, in two periods
        var caller = await agency.CallerAsync(agency.Marisol);

        PlanAgency.Must(await agency.Agency.Get<TakeBackService>().RunAsync(caller, Guid.CreateVersion7(),
            new() { Learner = agency.Wren, Service = service, Version = 1, Reason = "Entered twice" }));
        PlanAgency.Must(await agency.Agency.Get<TakeBackGoal>().RunAsync(caller, Guid.CreateVersion7(),
            new() { Learner = agency.Wren, Goal = goal, Version = 1, Reason = "Entered twice" }));

        Assert.Empty(await StatusesAsync(agency));
    }

    private static async Task<List<Status>> StatusesAsync(PlanAgency agency)
    {
        var read = agency.Agency.Get<ReadAudit>();
        var statuses = new List<Status>();
        foreach (var period in await read.PeriodsAsync(agency.Agency.WholeAgency))
            statuses.AddRange((await read.RunAsync(agency.Agency.WholeAgency, period.Id, new(2026, 10, 2)))!.Lines.Select(l => l.Balance.Status));
        return statuses;
    }
}
