using System.Data;
using Microsoft.EntityFrameworkCore;
using NodaTime;
using Npgsql;
using TeamCircle.Core;
using TeamCircle.Core.Family;
using TeamCircle.Core.Learners;
using TeamCircle.Core.Papers;
using TeamCircle.Core.Routines;
using TeamCircle.Data.Calendar;
using TeamCircle.Data.Family;
using TeamCircle.Data.Names;
using TeamCircle.Data.Papers;
using TeamCircle.Data.Reports;
using TeamCircle.Data.Routines;
using TeamCircle.Data.Sessions;
using TeamCircle.Data.Tests.Calendar;
using TeamCircle.Data.Tests.Closing;
using TeamCircle.Testing;
using TeamCircle.Testing.Postgres;

namespace TeamCircle.Data.Tests.Papers;

/// <summary>Days that bind, packs, decisions on an extended year and proof of what went out, on Tuesday 20 October 2026. The plan ends on 6 May 2027.</summary>
public sealed class PapersTests(TestDatabase database) : IClassFixture<TestDatabase>, IAsyncLifetime
{
    private static readonly LocalDate Today = new(2026, 10, 20);

    private ClosingAgency _made = null!;

    private TestAgency Agency => _made.Agency;
    private int Wren => _made.Team.Wren;
    private int Marisol => _made.Team.Marisol;

    public async ValueTask InitializeAsync() => _made = await ClosingAgency.CreateAsync(database);

    public ValueTask DisposeAsync() => _made.DisposeAsync();

    private async Task<Outcome<AddBoundDate.Saved>> EnterAsync(int by, BoundKind kind, LocalDate due, int? months = null) => await Agency.Get<AddBoundDate>().RunAsync(
        await _made.CallerAsync(by), Guid.CreateVersion7(), new() { Learner = Wren, Kind = kind, DueOn = due, RestsOn = "the report of the last one", RepeatMonths = months });

    private async Task<DatesPage> DatesAsync(int? reader = null)
    {
        var caller = await _made.CallerAsync(reader ?? Marisol);
        return (await Agency.Get<ReadDates>().RunAsync(caller, Scope.Of(caller), Wren))!;
    }

    private async Task<(BoundKind, LocalDate)[]> OpenAsync() => [.. (await DatesAsync()).Dates.Select(d => (d.Kind, d.Due))];

    private async Task<Outcome<SendPaper.Saved>> SendAsync(PaperPlace paper, LocalDate on, int? by = null) => await Agency.Get<SendPaper>().RunAsync(
        await _made.CallerAsync(by ?? Marisol), Guid.CreateVersion7(),
        new() { Learner = Wren, Paper = paper.Value, SentOn = on, Way = DeliveryWay.Post, Language = "Spanish", ToWhom = "Ines Belmares, her mother", About = "A change of place" });

    private async Task<PaperShown> PaperAsync(PaperKind kind)
    {
        var caller = await _made.CallerAsync(Marisol);
        return (await Agency.Get<ReadPapers>().RunAsync(caller, Scope.Of(caller), Wren))!.Papers.Single(p => p.Place.Kind == kind);
    }

    // Reviewed on 1 November 2025, for twelve months: its last day is 31 October 2026. What leaves the position as it was needs no new review; another position does.
    [Fact]
    public async Task Review_of_a_routine_binds_until_its_last_day_for_as_long_as_it_speaks_of_the_card()
    {
        var routine = await Agency.AddAsync(new RoutineRow { LearnerId = Wren, Name = "Warm towel hello" });
        async Task<int> WriteAsync(int number, string position, string say) => (await Agency.AddAsync(new RoutineVersionRow
        {
            LearnerId = Wren,
            RoutineId = routine.Id,
            Number = number,
            Content = new RoutineContent { Position = position, Say = say }.Write(),
            WrittenBy = Marisol,
        })).Id;
        var days = async () => (await DatesAsync()).Dates.Where(d => d.Kind == BoundKind.RoutineReview).Select(d => (d.Due, d.About, d.Paper, d.IsKept));
        var first = await WriteAsync(1, "In her chair", "Hello");
        Assert.Empty(await days());
        await Agency.AddAsync(new RoutineReviewRow { LearnerId = Wren, VersionId = first, PersonId = _made.Team.Odalys, Discipline = Discipline.PhysicalTherapy, ReviewedOn = new(2025, 11, 1) });
        Assert.Equal([(new(2026, 10, 31), "Warm towel hello", routine.Id, false)], await days());
        await WriteAsync(2, "In her chair", "Good morning");
        Assert.Single(await days());
        var whole = await Agency.Get<ReadDates>().AllAsync(await _made.CallerAsync(Marisol), Agency.WholeAgency);
        Assert.Null(Assert.Single(whole, d => d.Date.Kind == BoundKind.RoutineReview).Date.About); // words that people wrote
        await WriteAsync(3, "On the mat, on her side", "Good morning");
        Assert.Empty(await days());
    }

    [Fact]
    public async Task Days_that_other_parts_know_stand_beside_those_that_people_keep()
    {
        Assert.Equal([(BoundKind.Report, new(2026, 10, 30)), (BoundKind.AnnualReview, new(2027, 5, 6))], await OpenAsync());
        await Agency.AddAsync(new LicenceRow { PersonId = _made.Team.Odalys, Name = "State licence", UntilDay = new(2026, 12, 1), EnteredBy = Marisol });
        await Agency.AddAsync(new LicenceRow { PersonId = _made.Team.Priya, Name = "State licence", UntilDay = new(2026, 12, 2), EnteredBy = Marisol }); // not on the team
        Assert.Equal("Odalys Ferreira, State licence", Assert.Single((await DatesAsync()).Dates, d => d.Kind == BoundKind.Licence).About);

        var entered = (await EnterAsync(Marisol, BoundKind.Reevaluation, new(2026, 11, 2), months: 36)).Value!.BoundDate;
        Assert.Contains(Problem.NotFound, (await EnterAsync(_made.Team.Odalys, BoundKind.Orders, Today)).Problems);
        Assert.False((await DatesAsync(_made.Team.Odalys)).MayKeep);

        var marisol = await _made.CallerAsync(Marisol);
        var done = await Agency.Get<DoBoundDate>().RunAsync(marisol, Guid.CreateVersion7(), new() { Learner = Wren, BoundDate = entered, Version = 1, DoneOn = new(2026, 10, 15) });
        Assert.Equal(new LocalDate(2029, 10, 15), done.Value!.Next);
        Assert.Equal((BoundKind.Reevaluation, new LocalDate(2029, 10, 15)), (await OpenAsync())[^1]);
        var again = await Agency.Get<DoBoundDate>().RunAsync(marisol, Guid.CreateVersion7(), new() { Learner = Wren, BoundDate = entered, Version = 2, DoneOn = Today });
        Assert.Null(again.Value);
        Assert.Equal(new LocalDate(2026, 10, 15), Assert.Single((await DatesAsync()).Before).DoneOn);
    }

    [Fact]
    public async Task Moved_day_says_what_stood_before_and_no_hand_writes_over_it()
    {
        var entered = (await EnterAsync(Marisol, BoundKind.VisionEvaluation, new(2026, 10, 1))).Value!.BoundDate;
        var marisol = await _made.CallerAsync(Marisol);
        Task<Outcome<MoveBoundDate.Saved>> MoveAsync(int date, LocalDate? to, string? why, bool takeBack = false) => Agency.Get<MoveBoundDate>().RunAsync(
            marisol, Guid.CreateVersion7(), new() { Learner = Wren, BoundDate = date, Version = 1, DueOn = to, Reason = why, TakeBack = takeBack });

        Assert.Equal("Reason", Assert.Single((await MoveAsync(entered, new(2026, 11, 20), " ")).Problems).Field);
        var moved = (await MoveAsync(entered, new(2026, 11, 20), "Her glasses come only then")).Value!.BoundDate;
        Assert.Contains((BoundKind.VisionEvaluation, new(2026, 11, 20)), await OpenAsync());
        Assert.Equal((new LocalDate(2026, 11, 20), "Her glasses come only then"), (await DatesAsync()).Before.Select(b => (b.MovedTo!.Value, b.Word!)).Single());
        Assert.NotNull((await MoveAsync(moved, null, "Another agency gives it", takeBack: true)).Value);
        Assert.DoesNotContain(BoundKind.VisionEvaluation, (await OpenAsync()).Select(d => d.Item1));

        Assert.Equal("42501", await RefusedAsync("update portal.bound_dates set due_on = date '2030-01-01'"));
        Assert.Equal("42501", await RefusedAsync("update portal.deliveries set sent_on = date '2026-01-01'"));
        var ines = await _made.CallerAsync(_made.Team.Ines);
        Assert.Equal(0, await Agency.Portal.ReadAsync(Scope.Of(ines), db => db.BoundDates.IgnoreQueryFilters().CountAsync()));
    }

    /// <summary>What the database answers to everybody on the team.</summary>
    private async Task<string?> RefusedAsync(string sql)
    {
        await using var work = await Agency.Portal.OpenAsync(Agency.Person(Marisol, Wren), IsolationLevel.ReadCommitted);
        return (await Assert.ThrowsAsync<PostgresException>(() => work.Db.Database.ExecuteSqlRawAsync(sql))).SqlState;
    }

    [Fact]
    public async Task Report_is_due_until_it_went_out_and_again_when_it_came_back()
    {
        var report = await Agency.AddAsync(new ReportRow { LearnerId = Wren, PeriodId = _made.Team.Period.Id, BegunBy = Marisol, Hash = new string('0', 64) });
        var place = new PaperPlace(PaperKind.Report, report.Id);
        Assert.Equal("Paper", Assert.Single((await SendAsync(place, Today)).Problems).Field); // it is not finished
        await Agency.ChangeAsync<ReportRow>(r => r.Id == report.Id, r => (r.FinishedBy, r.FinishedAt) = (Marisol, Instant.FromUtc(2026, 10, 19, 16, 0)));
        Assert.Contains(Problem.NotFound, (await SendAsync(place, Today, by: _made.Team.Odalys)).Problems);

        var sent = (await SendAsync(place, Today)).Value!.Delivery;
        Assert.DoesNotContain(BoundKind.Report, (await OpenAsync()).Select(d => d.Item1));
        Assert.Equal(DeliveryState.Sent, (await PaperAsync(PaperKind.Report)).StateOn(Today));
        var marisol = await _made.CallerAsync(Marisol);
        var back = await Agency.Get<ChangeDelivery>().RunAsync(marisol, Guid.CreateVersion7(),
            new() { Learner = Wren, Delivery = sent, Version = 1, ReturnedOn = Today, ReturnedWord = "Nobody at that address" });
        Assert.NotNull(back.Value);
        Assert.Contains((BoundKind.Report, new(2026, 10, 30)), await OpenAsync());
        Assert.Equal(DeliveryState.Returned, (await PaperAsync(PaperKind.Report)).StateOn(Today));

        Assert.NotNull((await SendAsync(place, Today)).Value);
        var paper = await PaperAsync(PaperKind.Report);
        Assert.Equal((DeliveryState.Sent, 2, new LocalDate(2026, 10, 30)), (paper.StateOn(Today), paper.Sendings.Count, paper.Due!.Value));
        Assert.NotNull((await SendAsync(new(PaperKind.PriorNotice), Today)).Value);
        Assert.Equal("A change of place", (await PaperAsync(PaperKind.PriorNotice)).Name);
    }

    [Fact]
    public async Task Pack_takes_closed_counts_as_they_were_sealed_and_stays_once_it_went_out()
    {
        var visit = await _made.Team.VisitAsync();
        await LogAsync(visit);
        await _made.CloseAsync();
        Assert.NotNull((await _made.LogAsync(new(2026, 10, 19), pays: visit.OnDay)).Value);
        var marisol = await _made.CallerAsync(Marisol);
        await Agency.Get<EnterRemark>().RunAsync(marisol, Guid.CreateVersion7(),
            new() { Learner = Wren, Kind = RemarkKind.ForMeeting, Words = "She sleeps badly before long days.", SaidBy = "her mother", SaidOn = Today });

        var made = (await Agency.Get<MakePack>().RunAsync(marisol, Guid.CreateVersion7(), new() { Learner = Wren, OnDay = new(2026, 11, 4), About = "Annual review" })).Value!.Meeting;

        var pack = await PackAsync(made);
        Assert.Equal(new LocalDate(2026, 10, 28), pack.FamilyBy); // five school days before Wednesday 4 November
        // Nine weeks of 60 minutes close in the period that was sealed, and 45 were given; the week of 19 October is not past. The make-up of 30 came after, and that week lacked 15.
        var vision = Assert.Single(pack.Content.Services);
        Assert.Equal((540, 45, 495, 15, 1), (vision.Due, vision.Given, vision.Lack, vision.MadeUpSince, vision.SealedPeriods));
        Assert.Equal("She sleeps badly before long days.", Assert.Single(pack.Content.Family).Words);
        Assert.Equal(_made.Team.Gaze.Id, Assert.Single(pack.Content.Goals).Goal);
        Assert.Contains((BoundKind.Pack, new(2026, 10, 28)), await OpenAsync());

        Assert.NotNull((await ChangeAsync(made, 1)).Value);
        Assert.NotNull((await SendAsync(new(PaperKind.MeetingPack, made), Today)).Value);
        var named = await Agency.Portal.ReadAsync(Agency.WholeAgency, db => db.Learners.SingleAsync(l => l.Id == Wren));
        Assert.NotNull((await Agency.Get<RenameLearner>().RunAsync(marisol, Guid.CreateVersion7(),
            new() { Learner = Wren, Version = named.Version, Name = "Renata Quillon", Called = named.Name, FromDay = Today, Paper = "Court order" })).Value);
        Assert.Equal("Renata Quillon", (await PackAsync(made)).Learner); // the legal name of the day on which it went out
        Assert.Contains("gone out", Assert.Single((await ChangeAsync(made, 2)).Problems).Message, StringComparison.Ordinal);
        Assert.DoesNotContain(BoundKind.Pack, (await OpenAsync()).Select(d => d.Item1));
        Assert.InRange(await Statements.CountAsync(() => Agency.Get<ReadDates>().RunAsync(marisol, Scope.Of(marisol), Wren)), 5, 14);
    }

    private async Task LogAsync(VisitRow visit) => Assert.NotNull((await Agency.Get<LogSession>().RunAsync(
        await _made.CallerAsync(visit.ProviderId), Guid.CreateVersion7(), new() { Visits = [visit.Id] })).Value);

    private async Task<PackPage> PackAsync(int meeting)
    {
        var caller = await _made.CallerAsync(_made.Team.Odalys);
        return (await Agency.Get<ReadPacks>().OneAsync(caller, Scope.Of(caller), Wren, meeting))!;
    }

    private async Task<Outcome<ChangePack.Saved>> ChangeAsync(int meeting, int version) => await Agency.Get<ChangePack>().RunAsync(
        await _made.CallerAsync(Marisol), Guid.CreateVersion7(), new() { Learner = Wren, Meeting = meeting, Version = version });

    [Fact]
    public async Task Extended_year_is_asked_for_decided_and_decided_anew_with_what_stood_before()
    {
        var marisol = await _made.CallerAsync(Marisol);
        Task<Outcome<AskExtendedYear.Saved>> AskAsync(LocalDate by, int? instead = null, int version = 0, string? why = null) => Agency.Get<AskExtendedYear>().RunAsync(
            marisol, Guid.CreateVersion7(), new() { Learner = Wren, DecideBy = by, Instead = instead, Version = version, Reason = why });
        Task<Outcome<DecideExtendedYear.Saved>> DecideAsync(int decision, int goal, string? reason) => Agency.Get<DecideExtendedYear>().RunAsync(marisol, Guid.CreateVersion7(), new()
        {
            Learner = Wren,
            Decision = decision,
            Version = 1,
            Answer = ExtendedYearAnswer.Needed,
            DecidedOn = Today,
            Reason = reason,
            TookPart = "Odalys Ferreira, her mother",
            Goals = [goal],
        });

        var asked = (await AskAsync(new(2027, 3, 1))).Value!.Decision;
        Assert.Contains((BoundKind.ExtendedYear, new(2027, 3, 1)), await OpenAsync());
        Assert.NotEmpty((await AskAsync(new(2027, 4, 1))).Problems);
        Assert.Equal(["Goals"], (await DecideAsync(asked, _made.Team.Gaze.Id + 1000, "What she lost in the break of autumn")).Problems.Select(p => p.Field));
        Assert.Equal(["Reason"], (await DecideAsync(asked, _made.Team.Gaze.Id, null)).Problems.Select(p => p.Field));
        Assert.NotNull((await DecideAsync(asked, _made.Team.Gaze.Id, "What she lost in the break of autumn")).Value);
        Assert.DoesNotContain(BoundKind.ExtendedYear, (await OpenAsync()).Select(d => d.Item1));

        Assert.Equal(["Reason"], (await AskAsync(new(2027, 4, 1), asked, 2)).Problems.Select(p => p.Field));
        Assert.NotNull((await AskAsync(new(2027, 4, 1), asked, 2, "Her mother could not come")).Value);
        var page = (await Agency.Get<ReadExtendedYear>().RunAsync(marisol, Scope.Of(marisol), Wren))!;
        Assert.Equal([(null, null), (ExtendedYearAnswer.Needed, "Her mother could not come")], page.Decisions.Select(d => (d.Answer, d.TakenBack)));
        Assert.Equal(["vision"], page.Decisions[1].Goals);
    }
}
