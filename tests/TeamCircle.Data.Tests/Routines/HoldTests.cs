using Microsoft.EntityFrameworkCore;
using NodaTime;
using Npgsql;
using TeamCircle.Core;
using TeamCircle.Core.Learners;
using TeamCircle.Core.People;
using TeamCircle.Core.Routines;
using TeamCircle.Data.Learners;
using TeamCircle.Data.People;
using TeamCircle.Data.Routines;
using TeamCircle.Testing;
using TeamCircle.Testing.Postgres;

namespace TeamCircle.Data.Tests.Routines;

/// <summary>Holds: set, read, ended, and who may. Now is Friday 2 October 2026, 9:00.</summary>
public sealed class HoldTests(TestDatabase database) : IClassFixture<TestDatabase>, IAsyncLifetime
{
    private static readonly RoutineContent Card = new()
    {
        Position = "upright in the corner chair",
        Cautions = [new("c1", CautionKind.Positioning, "Feet on the block.")],
        Steps = [new("s1", StepKind.Shown, "Show the can", []), new("s2", StepKind.Response, "She presses", [])],
    };

    private static int _agencies;
    private TestAgency _agency = null!;
    private TestTeam _team = null!;
    private int _herbs, _bell;

    public async ValueTask InitializeAsync()
    {
        _agency = await TestAgency.CreateAsync(database, $"HOLD{Interlocked.Increment(ref _agencies)}");
        _team = await TestTeam.CreateAsync(_agency);
        await _agency.AddAsync(new PersonDisciplineRow { PersonId = _team.Bram, Discipline = Discipline.OccupationalTherapy });
        (_herbs, _bell) = (await RoutineAsync("Watering the herbs", Card), await RoutineAsync("Bell", new() { Cue = "a bell" }));
    }

    public ValueTask DisposeAsync() => _agency.DisposeAsync();

    private async Task<int> RoutineAsync(string name, RoutineContent card)
    {
        var routine = await _agency.AddAsync(new RoutineRow { LearnerId = _team.Wren, Name = name });
        await VersionAsync(routine.Id, 1, card);
        return routine.Id;
    }

    private Task<RoutineVersionRow> VersionAsync(int routine, int number, RoutineContent card) => _agency.AddAsync(
        new RoutineVersionRow { LearnerId = _team.Wren, RoutineId = routine, Number = number, Content = card.Write(), WrittenBy = _team.Odalys });

    private SetHold.Input OnHerbs => new() { Learner = _team.Wren, Routine = _herbs, Reason = "New chair: positions are not set yet.", ToldAs = HoldWord.Parent, ToldBy = "Ines Belmares", ToldOn = new(2026, 10, 1) };

    private async Task<Outcome<SetHold.Saved>> SetAsync(SetHold.Input? input = null, int? by = null) =>
        await _agency.Get<SetHold>().RunAsync(await _team.CallerAsync(by ?? _team.Odalys), Guid.CreateVersion7(), input ?? OnHerbs);

    private async Task<int> HoldAsync(SetHold.Input? input = null) => (await SetAsync(input)).Value!.Hold;

    private async Task<Outcome<EndHold.Saved>> EndAsync(int hold, int by, string? agreed = null, int version = 1, string word = "Sits as before.") =>
        await _agency.Get<EndHold>().RunAsync(await _team.CallerAsync(by), Guid.CreateVersion7(), new() { Learner = _team.Wren, Hold = hold, Version = version, Word = word, AgreedBy = agreed });

    private async Task<HoldsPage> ReadAsync(int? by = null)
    {
        var caller = await _team.CallerAsync(by ?? _team.Odalys);
        return (await _agency.Get<ReadHolds>().RunAsync(caller, Scope.Of(caller), _team.Wren))!;
    }

    private Task<int> VersionOfHerbsAsync() =>
        _agency.Portal.ReadAsync(_agency.WholeAgency, db => db.RoutineVersions.Where(v => v.RoutineId == _herbs).Select(v => v.Id).SingleAsync());

    private async Task ReviewAsync(Discipline discipline) => await _agency.AddAsync(new RoutineReviewRow
    {
        LearnerId = _team.Wren,
        VersionId = await VersionOfHerbsAsync(),
        PersonId = _team.Bram,
        Discipline = discipline,
        ReviewedOn = new(2026, 9, 1),
    });

    [Fact]
    public async Task Hold_stands_with_reason_word_and_time_and_stops_its_routine_only()
    {
        await HoldAsync();

        var page = await ReadAsync(_team.Marisol);

        var hold = Assert.Single(page.Standing).Hold;
        Assert.Equal(("Watering the herbs", null, "New chair: positions are not set yet.", HoldWord.Parent, "Ines Belmares"), (hold.Routine, hold.Step, hold.Reason, hold.ToldAs, hold.ToldBy));
        Assert.Equal(("Odalys Ferreira", new LocalDateTime(2026, 10, 2, 9, 0)), (hold.SetBy, hold.SetAt));
        Assert.Equal([(_herbs, HoldEffect.Whole)], hold.Stops.Select(s => (s.Key, s.Value)));
        Assert.Equal(["Bell", "Watering the herbs"], page.Routines.Select(p => p.Name));
        Assert.Equal(["s1", "s2"], page.Routines[1].Steps.Select(s => s.Key));
    }

    [Fact]
    public async Task Hold_on_a_step_and_on_a_part_stop_what_they_lie_on()
    {
        await HoldAsync(OnHerbs with { Step = "s2" });
        await HoldAsync(OnHerbs with { Routine = null, Part = TeachPart.Position });
        await HoldAsync(OnHerbs with { Routine = null, Part = TeachPart.SignalStop });

        var holds = (await ReadAsync()).Standing.Select(h => h.Hold).OrderBy(h => h.Id).ToList();

        Assert.Equal("She presses", holds[0].Step);
        Assert.Equal([(_herbs, HoldEffect.Step)], holds[0].Stops.Select(s => (s.Key, s.Value)));
        Assert.Equal([(_herbs, HoldEffect.Whole)], holds[1].Stops.Select(s => (s.Key, s.Value)));
        Assert.Equal(new[] { _herbs, _bell }.Order(), holds[2].Stops.Keys.Order());
    }

    [Fact]
    public async Task Substitute_and_assistant_set_holds_and_outsiders_find_nothing()
    {
        var substitute = await _team.PersonAsync("Sela Brandt", Role.Provider, Relation.Substitute, _team.Wren);
        var assistant = await _team.PersonAsync("Joss Ahlgren", Role.Provider, Relation.Assistant, _team.Wren);
        var administrator = await _team.PersonAsync("Dele Okwarre", Role.Administrator, Relation.Team);

        Assert.All([(await SetAsync(by: substitute)).Problems, (await SetAsync(by: assistant)).Problems, (await SetAsync(by: _team.Marisol)).Problems], Assert.Empty);
        foreach (var outsider in new[] { _team.Priya, _team.Ines, administrator })
            Assert.Equal([Problem.NotFound], (await SetAsync(by: outsider)).Problems);
        Assert.All((await ReadAsync(substitute)).Standing, h => Assert.Equal(HoldEnding.No, h.Ending));
    }

    [Fact]
    public async Task What_is_not_there_or_not_said_is_refused()
    {
        Assert.Equal([Problem.NotFound], (await SetAsync(OnHerbs with { Routine = _herbs + 1000 })).Problems);
        Assert.Equal([Problem.NotFound], (await SetAsync(OnHerbs with { Step = "s9" })).Problems);
        Assert.Equal([Problem.NotFound], (await SetAsync(OnHerbs with { Learner = _team.Jonah })).Problems); // another learner's routine
        Assert.Equal(["On"], (await SetAsync(OnHerbs with { Routine = null })).Problems.Select(p => p.Field));
        Assert.Equal(["ToldOn"], (await SetAsync(OnHerbs with { ToldOn = new(2026, 10, 3) })).Problems.Select(p => p.Field));
        Assert.Empty((await ReadAsync()).Standing);
    }

    [Fact]
    public async Task Routine_belongs_to_the_discipline_that_reviewed_it_last()
    {
        var hold = await HoldAsync();
        Assert.Equal([Problem.NotFound], (await EndAsync(hold, _team.Bram)).Problems); // nobody has reviewed it
        await ReviewAsync(Discipline.OccupationalTherapy);
        Assert.Equal((Discipline.OccupationalTherapy, HoldEnding.AsOwner), (await ReadAsync(_team.Bram)).Standing.Select(h => (h.Owner!.Value, h.Ending)).Single());
        Assert.Equal([Problem.NotFound], (await EndAsync(hold, _team.Odalys)).Problems);
        Assert.Equal(["Word"], (await EndAsync(hold, _team.Bram, word: " ")).Problems.Select(p => p.Field));

        Assert.Empty((await EndAsync(hold, _team.Bram)).Problems);

        var page = await ReadAsync();
        Assert.Empty(page.Standing);
        var ended = Assert.Single(page.Ended);
        Assert.Equal(new HoldEnd("Bram Nakamura", new(2026, 10, 2, 9, 0), "Sits as before.", null), ended.Ended);
        Assert.Empty(ended.Stops);
        Assert.Equal([""], (await EndAsync(hold, _team.Bram, version: 2)).Problems.Select(p => p.Field)); // ended already
    }

    [Fact]
    public async Task Case_manager_ends_it_naming_the_licensed_person_who_agreed()
    {
        var hold = await HoldAsync(OnHerbs with { Routine = null, Part = TeachPart.Hands });
        Assert.Equal(HoldEnding.AsOwner, (await ReadAsync(_team.Bram)).Standing.Single().Ending); // hands are occupational therapy's
        Assert.Equal(["AgreedBy"], (await EndAsync(hold, _team.Marisol)).Problems.Select(p => p.Field));
        Assert.Equal(["Version"], (await EndAsync(hold, _team.Marisol, "Dr. Ada Weiss, physician", version: 9)).Problems.Select(p => p.Field));

        Assert.Empty((await EndAsync(hold, _team.Marisol, "Dr. Ada Weiss, physician")).Problems);

        Assert.Equal("Dr. Ada Weiss, physician", (await ReadAsync()).Ended.Single().Ended!.AgreedBy);
    }

    [Fact]
    public async Task Part_that_was_given_to_no_discipline_is_the_case_managers()
    {
        await _agency.AddAsync(new TeachPartRow { LearnerId = _team.Wren, Part = TeachPart.Hands, Owner = null, Text = "Hand under hand.", WrittenOn = new(2026, 9, 1), WrittenBy = _team.Marisol });
        await HoldAsync(OnHerbs with { Routine = null, Part = TeachPart.Hands });

        Assert.Equal((null, HoldEnding.No), (await ReadAsync(_team.Bram)).Standing.Select(h => (h.Owner, h.Ending)).Single());
        Assert.Equal(HoldEnding.WithAgreement, (await ReadAsync(_team.Marisol)).Standing.Single().Ending);
    }

    [Fact]
    public async Task Database_refuses_a_hold_on_nothing_or_rewritten_words()
    {
        var hold = await HoldAsync();
        foreach (var bad in new[] { new HoldRow { LearnerId = _team.Wren, Reason = "x", SetBy = _team.Odalys }, new() { LearnerId = _team.Wren, Reason = "x", SetBy = _team.Odalys, RoutineId = _herbs, TeachPart = TeachPart.Hands } })
        {
            var refused = await Assert.ThrowsAsync<DbUpdateException>(() => _agency.AddAsync(bad));
            Assert.Equal("holds_place", ((PostgresException)refused.InnerException!).ConstraintName);
        }
        var rewritten = await Assert.ThrowsAsync<DbUpdateException>(() => _agency.ChangeAsync<HoldRow>(h => h.Id == hold, h => h.Reason = "never mind"));
        Assert.Equal("42501", ((PostgresException)rewritten.InnerException!).SqlState);
    }

    [Fact]
    public async Task Trail_names_who_set_and_ended_it()
    {
        var hold = await HoldAsync();
        await EndAsync(hold, _team.Marisol, "Dr. Ada Weiss, physician");

        var acts = await _agency.Portal.ReadAsync(_agency.WholeAgency, db => db.Changes.Where(c => c.AgencyId == _agency.Id && c.TableName == "holds")
            .OrderBy(c => c.Id).Select(c => new { c.Act, c.PersonId, c.LearnerId }).ToListAsync());

        Assert.Equal([("insert", _team.Odalys, _team.Wren), ("update", _team.Marisol, _team.Wren)], acts.Select(a => (a.Act, a.PersonId, a.LearnerId!.Value)));
    }

    [Fact]
    public async Task Cautions_are_seen_once_by_each_person_until_they_change()
    {
        var version = await VersionOfHerbsAsync();
        async Task<Outcome<SeeCautions.Saved>> SeeAsync(int who, int what) =>
            await _agency.Get<SeeCautions>().RunAsync(await _team.CallerAsync(who), Guid.CreateVersion7(), new() { Routine = _herbs, Version = what });
        async Task<bool> HasSeenAsync(int who, int? number = null) => (await _agency.Get<ReadRoutine>()
            .RunAsync(await _team.CallerAsync(who), _agency.Person(who, _team.Wren), _herbs, number))!.CautionsSeen;
        async Task WriteAsync(int number, RoutineContent card) => await _agency.AddAsync(new RoutineVersionRow
        { LearnerId = _team.Wren, RoutineId = _herbs, Number = number, Content = card.Write(), WrittenBy = _team.Odalys });
        Assert.Empty((await SeeAsync(_team.Odalys, version)).Problems);
        Assert.Empty((await SeeAsync(_team.Odalys, version)).Problems); // again, from another form
        Assert.Equal([Problem.NotFound], (await SeeAsync(_team.Priya, version)).Problems);
        Assert.Equal([Problem.NotFound], (await SeeAsync(_team.Odalys, version + 1000)).Problems);

        await WriteAsync(2, Card with { Position = "on her side" });
        Assert.True(await HasSeenAsync(_team.Odalys));
        await WriteAsync(3, Card with { Cautions = [], Flashing = true });
        Assert.False(await HasSeenAsync(_team.Odalys));
        Assert.False(await HasSeenAsync(_team.Bram, 1));
        await WriteAsync(4, new() { Cue = "a bell" });
        Assert.True(await HasSeenAsync(_team.Bram)); // none to be seen
    }

    [Theory]
    [InlineData(Role.Administrator, true)]
    [InlineData(Role.Director, true)]
    [InlineData(Role.CaseManager, false)]
    [InlineData(Role.Provider, false)]
    public async Task Administrator_and_director_set_the_rules_of_practice(Role role, bool may)
    {
        var person = await _team.PersonAsync("Dele Okwarre", role, Relation.Team);
        var set = _agency.Get<SetPracticeRules>();
        var now = await set.ReadAsync(_agency.WholeAgency);
        Assert.Equal((12, 24), (now.ReviewMonths, now.HoldContactHours));

        var saved = await set.RunAsync(await _team.CallerAsync(person), Guid.CreateVersion7(), now with { ReviewMonths = 6, HoldContactHours = 12 });

        Assert.Equal(may ? [] : [Problem.NotFound], saved.Problems);
        Assert.Equal(may ? (6, 12) : (12, 24), await set.ReadAsync(_agency.WholeAgency) is var after ? (after.ReviewMonths, after.HoldContactHours) : default);
        if (may)
            Assert.Equal(["ReviewMonths", "HoldContactHours"], (await set.RunAsync(await _team.CallerAsync(person), Guid.CreateVersion7(), now with { ReviewMonths = 0, HoldContactHours = 169 })).Problems.Select(p => p.Field));
    }
}
