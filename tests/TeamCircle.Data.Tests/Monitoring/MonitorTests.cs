using NodaTime;
using TeamCircle.Core;
using TeamCircle.Core.Calendar;
using TeamCircle.Core.Learners;
using TeamCircle.Core.Monitoring;
using TeamCircle.Core.People;
using TeamCircle.Core.Sessions;
using TeamCircle.Data.Calendar;
using TeamCircle.Data.Learners;
using TeamCircle.Data.Monitoring;
using TeamCircle.Data.Sessions;
using TeamCircle.Testing;
using TeamCircle.Testing.Postgres;

namespace TeamCircle.Data.Tests.Monitoring;

public sealed class MonitorTests(TestDatabase database) : IClassFixture<TestDatabase>, IAsyncLifetime
{
    private static int _agencies;
    private TestAgency _agency = null!;
    private TestTeam _team = null!;
    private Caller _director = null!;

    private static readonly LocalDate Monday = new(2026, 9, 14);

    public async ValueTask InitializeAsync()
    {
        _agency = await TestAgency.CreateAsync(database, $"MONITOR{Interlocked.Increment(ref _agencies)}");
        _team = await TestTeam.CreateAsync(_agency);
        _director = await _team.CallerAsync(await _team.PersonAsync("Vesna Orrick", Role.Director, Relation.Team));
    }

    public ValueTask DisposeAsync() => _agency.DisposeAsync();

    /// <summary>A visit of 45 minutes, with an entry made so many hours after its end.</summary>
    private async Task<SessionRow> EnteredAsync(ServiceRow service, LocalDate day, LocalTime start, int hoursLater, Action<SessionRow>? with = null, Place place = Place.Home)
    {
        var visit = await _team.VisitAsync(service, day: day, start: start, with: v => (v.State, v.Place) = (VisitState.Logged, place));
        var end = (day + start.PlusMinutes(45)).InZoneStrictly(DateTimeZoneProviders.Tzdb[visit.Zone]).ToInstant();
        var session = new SessionRow
        {
            Id = Guid.CreateVersion7(),
            LearnerId = visit.LearnerId,
            ServiceId = service.Id,
            VisitId = visit.Id,
            ProviderId = visit.ProviderId,
            OnDay = day,
            StartTime = start,
            EndTime = start.PlusMinutes(45),
            Credited = 45,
            RecordedAt = end + Duration.FromHours(hoursLater),
            Place = place,
        };
        with?.Invoke(session);
        return await _agency.AddAsync(session);
    }

    /// <summary>Worked by hand. Delays of 1, 2, 3, 30 and 100 hours: the third is the median, nine of ten are all five (4.5 of 5). Two of four given visits
    /// have the planned times (50 %); three notes, of which two are the same; on Wednesday 15 minutes for a road of 20; Thursday is away.</summary>
    [Fact]
    public async Task Figures_of_a_provider_are_those_worked_by_hand()
    {
        var jonahs = await _team.ServiceAsync(_team.Jonah, Discipline.Vision, _team.Odalys);
        var (home, school) = (await PlaceAsync("H1", Place.Home), await PlaceAsync("S1", Place.School));
        await _agency.AddAsync(new LearnerPlaceRow { LearnerId = _team.Wren, Kind = Place.Home, PlaceId = home });
        await _agency.AddAsync(new LearnerPlaceRow { LearnerId = _team.Jonah, Kind = Place.School, PlaceId = school });
        await _agency.AddAsync(new TravelTimeRow { FromPlaceId = home, ToPlaceId = school, Minutes = 20 });
        await _agency.AddAsync(new AwayRow { LearnerId = _team.Wren, Reason = AwayReason.Travel, FromDay = Monday.PlusDays(3), UntilDay = Monday.PlusDays(3) });
        await EnteredAsync(_team.Vision, Monday, new(9, 0), 30, s => s.Note = "Herbs");
        await EnteredAsync(_team.Vision, Monday.PlusDays(1), new(9, 0), 1, s => (s.Note, s.Outcome, s.Reason, s.Credited) = ("Nobody there", VisitOutcome.Offered, Reason.NobodyHome, 0));
        await EnteredAsync(_team.Vision, Monday.PlusDays(2), new(9, 0), 100, s => (s.Note, s.Observed) = ("Herbs", true));
        await EnteredAsync(jonahs, Monday.PlusDays(2), new(10, 0), 3, s => s.Observed = true, Place.School);
        await EnteredAsync(_team.Vision, Monday.PlusDays(3), new(9, 0), 2);
        await EnteredAsync(_team.Vision, Monday.PlusDays(40), new(9, 0), 500); // outside the span
        await EnteredAsync(jonahs, Monday.PlusDays(4), new(9, 0), 900, s => (s.Origin, s.Outcome, s.Reason, s.Credited) = (SessionOrigin.File, VisitOutcome.NotOffered, Reason.NobodyHome, 0));
        await _agency.ChangeAsync<LearnerRow>(l => l.Id == _team.Jonah, l => l.SendingDistrict = "Marshlow");

        var read = await _agency.Get<ReadIndicators>().RunAsync(Scope.WholeAgency(_director, "a test"), Monday, Monday.PlusDays(6));

        var odalys = Assert.Single(read.Providers);
        Assert.Equal((4, 2, 50, 5), (odalys.Given, odalys.FromPlan, odalys.FromPlanPercent!.Value, odalys.Entries));
        Assert.Equal((3 * 60, 100 * 60), (odalys.Median!.Value, odalys.Most!.Value));
        Assert.Equal((2, 1, 1), (odalys.SameNotes, odalys.NotDrivenDays, odalys.OnAwayDays));
        Assert.Equal([new Cause("Marshlow", Reason.NobodyHome, 1, 45), new Cause(null, Reason.NobodyHome, 1, 45)], read.Causes.OrderBy(c => c.District is null));
    }

    /// <summary>A service of five days of which two assignments that overlap cover the first three: two days are left, and all seven of one without anybody.</summary>
    [Fact]
    public async Task Days_without_anybody_are_counted_once_however_assignments_overlap()
    {
        var (partly, vacant) = (await _team.ServiceAsync(_team.Jonah, Discipline.PhysicalTherapy, null), await _team.ServiceAsync(_team.Jonah, Discipline.Vision, null));
        await _agency.ChangeAsync<ServiceRow>(s => s.Id == partly.Id, s => (s.FromDay, s.ToDay) = (Monday, Monday.PlusDays(4)));
        foreach (var (from, to) in new[] { (0, 1), (1, 2) })
            await _agency.AddAsync(new AssignmentRow { LearnerId = _team.Jonah, ServiceId = partly.Id, PersonId = _team.Priya, FromDay = Monday.PlusDays(from), ToDay = Monday.PlusDays(to) });

        var read = await _agency.Get<ReadIndicators>().RunAsync(Scope.WholeAgency(_director, "a test"), Monday, Monday.PlusDays(6));

        Assert.Equal(new Vacancy(null, 2, 9), Assert.Single(read.Vacancies));
        Assert.NotEqual(vacant.Id, partly.Id);
    }

    [Fact]
    public async Task Sample_is_drawn_from_those_who_had_the_service_and_again_the_same()
    {
        for (var i = 0; i < 6; i++)
        {
            var learner = await _agency.AddAsync(new LearnerRow { Code = $"L{i}", Name = $"Learner {i}", MostMinutesADay = 60 });
            var plan = await _agency.AddAsync(new PlanRow { LearnerId = learner.Id, StartDay = Monday, EndDay = Monday.PlusDays(90) });
            await _agency.AddAsync(new ServiceRow
            {
                LearnerId = learner.Id,
                PlanId = plan.Id,
                Code = $"M{i}",
                Discipline = i < 5 ? Discipline.AssistiveTechnology : Discipline.Vision,
                EveryUnit = Core.Time.EveryUnit.Week,
                FromDay = i == 0 ? new(2026, 11, 2) : Monday, // the first one's begins after the period
                ToDay = Monday.PlusDays(90),
            });
        }
        var input = new DrawSample.Input { Period = _team.Period.Id, Discipline = Discipline.AssistiveTechnology, Size = 3, Seed = 1234567 };

        var (first, again) = (await DrawAsync(input), await DrawAsync(input));

        Assert.Equal((4, 3), (first.Sample.Population, first.Files.Count));
        Assert.Equal(first.Files.Select(f => f.LearnerId), again.Files.Select(f => f.LearnerId));
        // Of four files with this seed: 6457827717110365317 mod 4 = 1, 3203168211198807973 mod 3 = 1, 9817491932198370423 mod 2 = 1 (worked by hand): 2, 3, 4.
        Assert.Equal(["L2", "L3", "L4"], first.Files.Select(f => f.Code));
        var refused = await _agency.Get<DrawSample>().RunAsync(_director, Guid.CreateVersion7(), new() { Size = 0 });
        Assert.Equal(["Period", "Size", "Seed"], refused.Problems.Select(p => p.Field));
        Assert.Equal([Problem.NotFound], (await _agency.Get<DrawSample>().RunAsync(await _team.CallerAsync(_team.Marisol), Guid.CreateVersion7(), input)).Problems);
    }

    [Fact]
    public async Task File_of_a_sample_shows_what_is_on_record_and_keeps_what_was_answered()
    {
        await EnteredAsync(_team.Vision, Monday, new(9, 0), 60);
        var drawn = await DrawAsync(new() { Period = _team.Period.Id, Size = 1, Seed = 5 });
        var file = Assert.Single(drawn.Files);
        Assert.Equal("WREN", file.Code); // the only one with a service

        var shown = (await ReadAsync(file))!;
        Assert.Equal(FileAnswer.No, shown.Checks.Single(c => c.Question == FileQuestion.LateEntries).Proposed);
        Assert.Equal("Each of 1 service", shown.Checks.Single(c => c.Question == FileQuestion.SomebodyAssigned).Found);
        Assert.Equal(FileAnswer.NotApplicable, shown.Checks.Single(c => c.Question == FileQuestion.FamilyTold).Proposed);

        foreach (var (said, word) in new[] { (FileAnswer.No, (string?)null), (FileAnswer.Yes, "The entries of that week came from paper") })
        {
            var outcome = await _agency.Get<AnswerFile>().RunAsync(_director, Guid.CreateVersion7(), new()
            {
                Learner = file.LearnerId,
                File = file.Id,
                Answers = [new() { Question = FileQuestion.LateEntries, Said = said, Word = word }, new() { Question = FileQuestion.Signatures }],
            });
            Assert.Equal(drawn.Sample.Id, outcome.Value!.Sample);
        }

        var (question, answer) = Assert.Single((await ReadAsync(file))!.Answered);
        Assert.Equal((FileQuestion.LateEntries, new FileAnswered(FileAnswer.Yes, "The entries of that week came from paper", "Vesna Orrick")), (question, answer));
        Assert.Null(await _agency.Get<ReadSamples>().FileAsync(_agency.Person(_team.Marisol, _team.Wren), file.LearnerId, file.Id, _director.Today));
    }

    private async Task<SampleShown> DrawAsync(DrawSample.Input input)
    {
        var saved = (await _agency.Get<DrawSample>().RunAsync(_director, Guid.CreateVersion7(), input)).Value!;
        return (await _agency.Get<ReadSamples>().OfAsync(Scope.WholeAgency(_director, "a test"), saved.Sample))!;
    }

    private Task<SampleFileShown?> ReadAsync(SampledFile file) =>
        _agency.Get<ReadSamples>().FileAsync(Scope.WholeAgency(_director, "a test"), file.LearnerId, file.Id, _director.Today);

    private async Task<int> PlaceAsync(string code, Place kind) => (await _agency.AddAsync(new PlaceRow { Code = code, Name = code, Kind = kind })).Id;
}
