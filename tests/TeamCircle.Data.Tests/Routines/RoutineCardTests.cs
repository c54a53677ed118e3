using Microsoft.EntityFrameworkCore;
using NodaTime;
using Npgsql;
using SkiaSharp;
using TeamCircle.Core;
using TeamCircle.Core.Learners;
using TeamCircle.Core.People;
using TeamCircle.Core.Practice;
using TeamCircle.Core.Routines;
using TeamCircle.Data.People;
using TeamCircle.Data.Practice;
using TeamCircle.Data.Routines;
using TeamCircle.Testing;
using TeamCircle.Testing.Postgres;

namespace TeamCircle.Data.Tests.Routines;

/// <summary>A routine's card: versions, reviews, pictures, its name and its end. Today is Friday 2 October 2026; Bram is an occupational therapist.</summary>
public sealed class RoutineCardTests(TestDatabase database) : IClassFixture<TestDatabase>, IAsyncLifetime
{
    private static int _agencies;
    private TestAgency _agency = null!;
    private TestTeam _team = null!;
    private int _herbs;

    public async ValueTask InitializeAsync()
    {
        _agency = await TestAgency.CreateAsync(database, $"CARD{Interlocked.Increment(ref _agencies)}");
        _team = await TestTeam.CreateAsync(_agency);
        await _agency.AddAsync(new PersonDisciplineRow { PersonId = _team.Bram, Discipline = Discipline.OccupationalTherapy });
        await _agency.AddAsync(new PersonDisciplineRow { PersonId = _team.Odalys, Discipline = Discipline.Vision });
        _herbs = (await _agency.AddAsync(new RoutineRow { LearnerId = _team.Wren, Name = "Watering the herbs", ObjectCue = "the small can", Place = Place.Home })).Id;
    }

    public ValueTask DisposeAsync() => _agency.DisposeAsync();

    private static CardInput Card(Action<CardInput>? with = null)
    {
        var card = new CardInput
        {
            Cue = "the green can ",
            Position = "in the corner chair",
            Procedure = PromptProcedure.LeastToMost,
            WaitSeconds = 12,
            Cautions = [new() { Kind = CautionKind.PowerAndWater, Text = "The pump runs on its battery only." }],
            Prompts = [new() { Words = "Say it once more" }, new() { Words = "Guide the elbow", Hand = HandPlace.Under, Part = "elbow", Stops = "stops when she pulls away" }],
            Steps = [new() { Kind = StepKind.Shown, Words = "Show the can" }, new() { Kind = StepKind.Response, Words = "She presses" }],
        };
        with?.Invoke(card);
        return card;
    }

    private async Task<Outcome<WriteRoutine.Saved>> WriteAsync(CardInput card, int number, int? person = null) => await _agency.Get<WriteRoutine>()
        .RunAsync(await _team.CallerAsync(person ?? _team.Odalys), Guid.CreateVersion7(), new() { Routine = _herbs, Number = number, Card = card });

    private async Task<RoutinePage> ReadAsync(int? person = null, int? number = null) => (await TryReadAsync(person, number))!;

    private async Task<RoutinePage?> TryReadAsync(int? person = null, int? number = null)
    {
        var caller = await _team.CallerAsync(person ?? _team.Odalys);
        return await _agency.Get<ReadRoutine>().RunAsync(caller, Scope.Of(caller), _herbs, number);
    }

    private async Task<Outcome<ReviewRoutine.Saved>> ReviewAsync(int version, int? person = null, Discipline? discipline = Discipline.OccupationalTherapy) => await _agency.Get<ReviewRoutine>()
        .RunAsync(await _team.CallerAsync(person ?? _team.Bram), Guid.CreateVersion7(), new() { Routine = _herbs, Version = version, As = discipline, Note = " " });

    private async Task<int> PictureAsync()
    {
        using var bitmap = new SKBitmap(30, 20);
        using var png = bitmap.Encode(SKEncodedImageFormat.Png, 100);
        var saved = await _agency.Get<AddPicture>().RunAsync(await _team.CallerAsync(_team.Odalys), Guid.CreateVersion7(),
            new() { Routine = _herbs, Kind = PictureKind.Cue, Words = "The can from her left", Sent = png.ToArray() });
        Assert.Empty(saved.Problems);
        return saved.Value!.Picture;
    }

    [Fact]
    public async Task Routine_without_a_card_shows_what_is_known_and_that_nothing_is_written()
    {
        var page = await ReadAsync();

        Assert.Equal((0, 0, "the small can", Place.Home), (page.Card.Number, page.Versions.Count, page.Card.Content.Cue, page.Card.Content.Place));
        Assert.Equal(ReviewState.NotNeeded, page.Card.Review.Standing.State);
    }

    [Fact]
    public async Task Each_save_is_another_version_and_calendars_name_the_newest_cue()
    {
        Assert.Equal(1, (await WriteAsync(Card(), 0)).Value!.Number);
        Assert.Equal(2, (await WriteAsync(CardInput.Of((await ReadAsync()).Card.Content).With(c => (c.Cue, c.Steps[0].Gone) = ("the red can", true)), 1)).Value!.Number);

        var (first, second) = (await ReadAsync(number: 1), await ReadAsync());

        Assert.Equal(("the green can", false, 2), (first.Card.Content.Cue, first.IsNewest, first.Versions.Count));
        Assert.Equal(["s2"], second.Card.Content.Steps.Select(s => s.Key)); // the same step under the same key
        Assert.Equal("the red can", (await _agency.Portal.ReadAsync(_agency.WholeAgency, db => db.Routines.SingleAsync())).ObjectCue);
        Assert.Null(await TryReadAsync(number: 3));
    }

    [Fact]
    public async Task Who_lost_the_race_and_who_changed_nothing_are_told()
    {
        await WriteAsync(Card(), 0);

        Assert.Equal(Problem.VersionField, Assert.Single((await WriteAsync(Card(c => c.Cue = "a bell"), 0)).Problems).Field);
        Assert.Contains("Nothing was changed", Assert.Single((await WriteAsync(CardInput.Of((await ReadAsync()).Card.Content), 1)).Problems).Message, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Problems_name_the_fields_of_the_form_also_behind_what_was_removed()
    {
        var refused = await WriteAsync(Card(c => (c.Steps[0].Gone, c.Steps[1].Words, c.Prompts[1].Part, c.Flashing) = (true, " ", null, true)), 0);

        Assert.Equal(["Prompts[1].Part", "SeizuresAsked", "Steps[1].Words"], refused.Problems.Select(p => p.Field).Order(StringComparer.Ordinal));
        Assert.Empty((await ReadAsync()).Versions);
    }

    [Fact]
    public async Task Steps_serve_the_learners_own_goals()
    {
        var jonahs = await _team.GoalAsync(_team.Jonah, _team.Odalys);

        Assert.Equal("Steps[1].Goals", Assert.Single((await WriteAsync(Card(c => c.Steps[1].Goals = [jonahs.Id]), 0)).Problems).Field);
        Assert.Empty((await WriteAsync(Card(c => c.Steps[1].Goals = [_team.Gaze.Id]), 0)).Problems);
        Assert.True((await ReadAsync()).Goals[_team.Gaze.Id].IsCurrent);
    }

    [Fact]
    public async Task Team_and_case_manager_write_and_others_find_nothing()
    {
        var helper = await _team.PersonAsync("Sub Stitute", Role.Provider, Relation.Substitute, _team.Wren);
        foreach (var person in new[] { _team.Priya, _team.Ines, helper })
            Assert.Equal([Problem.NotFound], (await WriteAsync(Card(), 0, person)).Problems);
        Assert.Empty((await WriteAsync(Card(), 0, _team.Marisol)).Problems);
        Assert.Null(await TryReadAsync(_team.Priya));
        Assert.False((await ReadAsync(helper)).MayWrite);
    }

    [Fact]
    public async Task No_version_can_be_altered_by_the_application()
    {
        await WriteAsync(Card(), 0);
        foreach (var sql in new[] { "update portal.routine_versions set number = 9", "delete from portal.routine_versions", "update portal.routine_reviews set reviewed_on = now()", "update portal.routine_pictures set jpeg = ''" })
        {
            await using var work = await _agency.Portal.OpenAsync(_agency.WholeAgency, System.Data.IsolationLevel.ReadCommitted);
            Assert.Equal("42501", (await Assert.ThrowsAsync<PostgresException>(() => work.Db.Database.ExecuteSqlRawAsync(sql))).SqlState);
        }
    }

    [Fact]
    public async Task Licensed_members_review_the_newest_version_and_it_holds_until_these_parts_change()
    {
        var first = (await WriteAsync(Card(), 0)).Value!.Version;
        Assert.Equal(ReviewState.Missing, (await ReadAsync()).Card.Review.Standing.State);
        Assert.Equal([Problem.NotFound], (await ReviewAsync(first, _team.Odalys, Discipline.Vision)).Problems); // no licence
        Assert.Equal("As", Assert.Single((await ReviewAsync(first, discipline: Discipline.PhysicalTherapy)).Problems).Field); // not his

        Assert.Empty((await ReviewAsync(first)).Problems);

        var reviewed = (await ReadAsync(_team.Bram)).Card.Review;
        Assert.Equal((ReviewState.Reviewed, "Bram Nakamura", new LocalDate(2027, 10, 1)), (reviewed.Standing.State, reviewed.By, reviewed.Standing.Until));
        Assert.True(reviewed.MayTakeBack);
        var card = CardInput.Of((await ReadAsync()).Card.Content);
        var second = (await WriteAsync(card.With(c => c.WaitSeconds = 20), 1)).Value!.Version;
        Assert.Equal(ReviewState.Reviewed, (await ReadAsync()).Card.Review.Standing.State);
        Assert.Contains("newer version", Assert.Single((await ReviewAsync(first)).Problems).Message, StringComparison.Ordinal);
        await WriteAsync(card.With(c => c.Position = "on her side"), 2);
        var outdated = (await ReadAsync()).Card.Review.Standing;
        Assert.Equal((ReviewState.Missing, true), (outdated.State, outdated.IsOutdated));
        Assert.Equal(ReviewState.Reviewed, (await ReadAsync(number: 2)).Card.Review.Standing.State);
        Assert.NotEqual(first, second);
    }

    [Fact]
    public async Task Review_is_taken_back_by_whoever_gave_it_with_a_reason()
    {
        var review = (await ReviewAsync((await WriteAsync(Card(), 0)).Value!.Version)).Value!.Review;
        async Task<Outcome<TakeBackReview.Saved>> TakeBackAsync(int person, string reason) => await _agency.Get<TakeBackReview>()
            .RunAsync(await _team.CallerAsync(person), Guid.CreateVersion7(), new() { Routine = _herbs, Review = review, Reason = reason });

        Assert.Equal([Problem.NotFound], (await TakeBackAsync(_team.Odalys, "x")).Problems);
        Assert.Equal("Reason", Assert.Single((await TakeBackAsync(_team.Bram, " ")).Problems).Field);
        Assert.Empty((await TakeBackAsync(_team.Bram, "The chair is another.")).Problems);

        Assert.Equal(ReviewState.Missing, (await ReadAsync()).Card.Review.Standing.State);
    }

    [Fact]
    public async Task Wait_is_proposed_from_the_trials_of_this_routine_and_before_any_there_is_none()
    {
        var version = (await WriteAsync(Card(), 0)).Value!.Version;
        Assert.Null((await ProposeAsync()).Seconds);
        var start = Instant.FromUtc(2026, 10, 1, 16, 0);
        var practice = await _agency.AddAsync(new PracticeRow
        {
            Id = Guid.CreateVersion7(),
            LearnerId = _team.Wren,
            RoutineId = _herbs,
            VersionId = version,
            ProviderId = _team.Odalys,
            StartedAt = start,
            EndedAt = start + Duration.FromMinutes(10),
            OnDay = new(2026, 10, 1),
            Record = "{}",
            RecordedBy = _team.Odalys,
            RecordedAt = start,
        });
        foreach (var waited in new int?[] { 8_000, 11_200, null })
            await _agency.AddAsync(new TrialRow { Id = Guid.CreateVersion7(), LearnerId = _team.Wren, PracticeId = practice.Id, Step = "s2", Waited = waited });

        Assert.Equal(17, (await ProposeAsync()).Seconds); // 11.2 and half again is 16.8

        async Task<WaitProposal> ProposeAsync() => await _agency.Get<ReadRoutine>().ProposeWaitAsync(Scope.Of(await _team.CallerAsync(_team.Odalys)), _herbs);
    }

    [Fact]
    public async Task Agency_sets_for_how_long_a_review_holds()
    {
        await using (var work = await _agency.Portal.OpenAsync(_agency.WholeAgency, System.Data.IsolationLevel.ReadCommitted))
        {
            await work.Db.Agencies.Where(a => a.Id == _agency.Id).ExecuteUpdateAsync(s => s.SetProperty(a => a.ReviewMonths, 1));
            await work.CommitAsync();
        }
        await ReviewAsync((await WriteAsync(Card(), 0)).Value!.Version);

        Assert.Equal((ReviewState.Due, new LocalDate(2026, 11, 1)), ((await ReadAsync()).Card.Review.Standing.State, (await ReadAsync()).Card.Review.Standing.Until));
    }

    [Fact]
    public async Task Picture_is_shown_removed_and_put_back_and_stands_in_the_trail_as_a_hash()
    {
        var picture = await PictureAsync();
        async Task<byte[]?> JpegAsync(int person)
        {
            var caller = await _team.CallerAsync(person);
            return await _agency.Get<ReadRoutine>().PictureAsync(Scope.Of(caller), _herbs, picture);
        }
        async Task MoveAsync(bool back) => Assert.Empty((await _agency.Get<RemovePicture>().RunAsync(await _team.CallerAsync(_team.Bram), Guid.CreateVersion7(), new(_herbs, picture, back))).Problems);

        Assert.Equal(("The can from her left", 30, 20), (await ReadAsync()).Pictures.Select(p => (p.Words, p.Width, p.Height)).Single());
        Assert.NotNull(await JpegAsync(_team.Odalys));
        Assert.Null(await JpegAsync(_team.Priya)); // of another team
        await MoveAsync(back: false);
        Assert.Null(await JpegAsync(_team.Odalys));
        Assert.Empty((await ReadAsync()).Pictures);
        await MoveAsync(back: true);
        Assert.Single((await ReadAsync()).Pictures);
        var trail = await _agency.Portal.ReadAsync(_agency.WholeAgency, db => db.Changes.Where(c => c.TableName == "routine_pictures").Select(c => c.After!).ToListAsync());
        Assert.Equal(3, trail.Count);
        Assert.All(trail, t => Assert.Matches("\"jpeg\": \"sha256:[0-9a-f]{64}\"", t));
        Assert.All(trail, t => Assert.DoesNotContain("ffd8ff", t, StringComparison.OrdinalIgnoreCase));
    }

    [Fact]
    public async Task Picture_needs_a_file_and_words_and_a_card_holds_six()
    {
        var refused = await _agency.Get<AddPicture>().RunAsync(await _team.CallerAsync(_team.Odalys), Guid.CreateVersion7(), new() { Routine = _herbs, Sent = [1, 2, 3] });
        Assert.Equal(["Sent", "Words"], refused.Problems.Select(p => p.Field));
        for (var i = 0; i < AddPicture.Most; i++)
            await PictureAsync();
        using var bitmap = new SKBitmap(3, 2);
        using var png = bitmap.Encode(SKEncodedImageFormat.Png, 100);

        var seventh = await _agency.Get<AddPicture>().RunAsync(await _team.CallerAsync(_team.Odalys), Guid.CreateVersion7(), new() { Routine = _herbs, Words = "One more", Sent = png.ToArray() });

        Assert.Contains("holds 6 pictures", Assert.Single(seventh.Problems).Message, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Routine_is_renamed_ends_with_a_reason_and_goes_on()
    {
        await _agency.AddAsync(new RoutineRow { LearnerId = _team.Wren, Name = "Warm towel hello" });
        var odalys = await _team.CallerAsync(_team.Odalys);
        async Task<int> TokenAsync() => (await ReadAsync()).Version;
        async Task<Problem[]> RenameAsync(string name) => [.. (await _agency.Get<RenameRoutine>().RunAsync(odalys, Guid.CreateVersion7(), new() { Routine = _herbs, Version = await TokenAsync(), Name = name })).Problems];
        async Task<Problem[]> EndAsync(string reason) => [.. (await _agency.Get<EndRoutine>().RunAsync(odalys, Guid.CreateVersion7(), new() { Routine = _herbs, Version = await TokenAsync(), Reason = reason })).Problems];

        Assert.Equal("Name", Assert.Single(await RenameAsync("warm towel hello")).Field);
        Assert.Empty(await RenameAsync(" Watering the basil "));
        Assert.Equal("Reason", Assert.Single(await EndAsync("")).Field);
        Assert.Empty(await EndAsync("The herbs have died."));

        Assert.Equal(("Watering the basil", new RoutineEnd(new(2026, 10, 2), "Odalys Ferreira", "The herbs have died.")), ((await ReadAsync()).Name, (await ReadAsync()).Ended!));
        Assert.Contains("has ended", Assert.Single((await WriteAsync(Card(), 0)).Problems).Message, StringComparison.Ordinal);
        Assert.Empty((await _agency.Get<ResumeRoutine>().RunAsync(odalys, Guid.CreateVersion7(), new() { Routine = _herbs, Version = await TokenAsync() })).Problems);
        Assert.Null((await ReadAsync()).Ended);
    }

    [Fact]
    public async Task Ended_routine_is_set_out_no_more_from_its_last_day_on()
    {
        var (before, after) = (await _team.VisitAsync(day: new(2026, 10, 1)), await _team.VisitAsync(day: new(2026, 10, 5)));
        foreach (var visit in new[] { before, after })
            await _agency.AddAsync(new VisitRoutineRow { LearnerId = _team.Wren, VisitId = visit.Id, RoutineId = _herbs });
        var odalys = await _team.CallerAsync(_team.Odalys);
        await _agency.Get<EndRoutine>().RunAsync(odalys, Guid.CreateVersion7(), new() { Routine = _herbs, Version = (await ReadAsync()).Version, Reason = "Spring is over." });

        async Task<int> ThingsAsync(LocalDate day) => (await _agency.Get<ReadDayStrip>().RunAsync(odalys, Scope.Of(odalys), _team.Wren, day))!.Things.Count;

        Assert.Equal((1, 0), (await ThingsAsync(new(2026, 10, 1)), await ThingsAsync(new(2026, 10, 5))));
    }
}

internal static class CardInputs
{
    public static CardInput With(this CardInput card, Action<CardInput> change)
    {
        change(card);
        return card;
    }
}
