using System.Data;
using Microsoft.EntityFrameworkCore;
using NodaTime;
using Npgsql;
using TeamCircle.Core.Finding;
using TeamCircle.Core.People;
using TeamCircle.Data.Finding;
using TeamCircle.Data.History;
using TeamCircle.Data.Learners;
using TeamCircle.Data.People;
using TeamCircle.Data.Routines;
using TeamCircle.Testing;
using TeamCircle.Testing.Postgres;

namespace TeamCircle.Data.Tests.Finding;

/// <summary>What a few letters find, and for whom.</summary>
public sealed class FindByWordsTests(TestDatabase database) : IClassFixture<TestDatabase>, IAsyncLifetime
{
    private static int _agencies;
    private TestAgency _agency = null!;
    private TestTeam _team = null!;

    public async ValueTask InitializeAsync()
    {
        _agency = await TestAgency.CreateAsync(database, $"FIND{Interlocked.Increment(ref _agencies)}");
        _team = await TestTeam.CreateAsync(_agency);
    }

    public ValueTask DisposeAsync() => _agency.DisposeAsync();

    private async Task<Found> FindAsync(int person, string typed)
    {
        var caller = await _team.CallerAsync(person);
        var scope = caller.Is(Role.Administrator) || caller.Is(Role.Director) ? Scope.WholeAgency(caller, "a test") : Scope.Of(caller, "a test");
        return await _agency.Get<FindByWords>().RunAsync(caller, scope, Sought.Of(typed, caller.Today));
    }

    /// <summary>All that was found, in one line: kinds in the order of the page.</summary>
    private async Task<string> NamesAsync(int person, string typed)
    {
        var found = await FindAsync(person, typed);
        return string.Join("; ", [.. found.Learners.Items.Select(l => l.Name), .. found.People.Items.Select(p => p.Name), .. found.Goals.Items.Select(g => $"{g.Learner}: {g.Area}"),
            .. found.Routines.Items.Select(r => $"{r.Learner}: {r.Name}"), .. found.Visits.Items.Select(v => $"{v.Learner} at {v.Start:HH:mm}")]);
    }

    [Theory]
    [InlineData("wre", "Wren Belmares")]
    [InlineData("mar wren", "Wren Belmares")] // any part of a word, in any order
    [InlineData("WRÉN", "Wren Belmares")]
    [InlineData("wern", "Wren Belmares")] // two letters changed about
    [InlineData("jonnah", "Jonah Tarrow")] // one too many
    [InlineData("wren tarrow", "")]
    [InlineData("nakam", "Bram Nakamura")]
    [InlineData("shift gaze", "Wren Belmares: vision")] // forms of words: the goal says "Shifts gaze from the object cue"
    [InlineData("objects wren", "Wren Belmares: vision")]
    [InlineData("objects jonah", "")]
    [InlineData("obejct", "Wren Belmares: vision")]
    [InlineData("soap", "Wren Belmares: Washing hands")] // what stands for a routine, too
    [InlineData("9/15 odalys", "Wren Belmares at 09:00")]
    [InlineData("9/15 bram", "Bram Nakamura")]
    [InlineData("%", "")]
    public async Task Team_finds_what_it_may_read(string typed, string found)
    {
        await _agency.AddAsync(new RoutineRow { LearnerId = _team.Wren, Name = "Washing hands", ObjectCue = "the bar of soap" });
        await _team.VisitAsync();

        Assert.Equal(found, await NamesAsync(_team.Odalys, typed));
        Assert.Equal("", await NamesAsync(_team.Priya, typed)); // on neither team
    }

    [Fact]
    public async Task Nothing_near_is_offered_where_something_is_spelled_so_and_what_is_near_is_said_to_be()
    {
        await _agency.AddAsync(new RelationRow { PersonId = _team.Odalys, LearnerId = (await _agency.AddAsync(new LearnerRow { Code = "WRENA", Name = "Wrena Ko", MostMinutesADay = 60 })).Id, Kind = Relation.Team, FromDay = new(2026, 8, 17) });

        var exact = (await FindAsync(_team.Odalys, "belmares")).Learners;
        var near = (await FindAsync(_team.Odalys, "belmarez")).Learners;

        Assert.Equal((false, "Wren Belmares"), (exact.AreNear, Assert.Single(exact.Items).Name));
        Assert.Equal((true, "Wren Belmares"), (near.AreNear, Assert.Single(near.Items).Name));
        Assert.Equal("Wren Belmares; Wrena Ko", await NamesAsync(_team.Odalys, "wren"));
    }

    [Fact]
    public async Task Legal_and_former_names_find_a_learner_for_the_case_manager_alone()
    {
        await _agency.ChangeAsync<LearnerRow>(l => l.Id == _team.Wren, l => l.LegalName = "Serenella Belmares");
        await _agency.AddAsync(new LearnerNameRow { LearnerId = _team.Wren, Name = "Quillon Vance", UntilDay = new(2026, 9, 1), Paper = "a paper", ChangedBy = _team.Marisol });

        Assert.Equal(["Wren Belmares", "Wren Belmares"], [await NamesAsync(_team.Marisol, "serenella"), await NamesAsync(_team.Marisol, "quillon")]);
        Assert.Equal(["", ""], [await NamesAsync(_team.Odalys, "serenella"), await NamesAsync(_team.Odalys, "quillon")]);
    }

    [Fact]
    public async Task Agency_is_looked_through_by_names_alone_and_by_addresses_only_where_somebody_looks_after_people()
    {
        var dele = await _team.PersonAsync("Dele Okwarre", Role.Administrator, Relation.Team);
        var solveig = await _team.PersonAsync("Solveig Harrow", Role.Director, Relation.Team);

        Assert.Equal("Wren Belmares; Ines Belmares", await NamesAsync(dele, "belm"));
        Assert.Equal("Wren Belmares", await NamesAsync(solveig, "belm")); // a mother is nobody's provider
        Assert.Equal("odalys@tallowfern.example", Assert.Single((await FindAsync(dele, "odalys tallowfern")).People.Items).Email);
        Assert.Equal("", await NamesAsync(solveig, "odalys tallowfern"));
        Assert.Null(Assert.Single((await FindAsync(solveig, "odalis")).People.Items).Email);
        Assert.Equal(["", ""], [await NamesAsync(dele, "gaze"), await NamesAsync(dele, "9/15")]);
        Assert.Equal("", await NamesAsync(dele, "terminal"));
    }

    [Fact]
    public async Task Staff_who_are_a_childs_family_do_not_look_through_its_record()
    {
        await _agency.AddAsync(new RelationRow { PersonId = _team.Priya, LearnerId = _team.Wren, Kind = Relation.Family, FromDay = new(2026, 8, 17) });

        Assert.Equal(["", "", ""], [await NamesAsync(_team.Priya, "wren"), await NamesAsync(_team.Priya, "gaze"), await NamesAsync(_team.Priya, "bram")]);
    }

    [Fact]
    public async Task Functions_hold_to_the_wall_whoever_calls_them()
    {
        await using var other = await TestAgency.CreateAsync(database, $"OTHER{Guid.NewGuid():N}");
        string[] words = ["wren"];
        Task<int> OwnAsync(TestAgency agency, Scope scope) => agency.Portal.ReadAsync(scope, db => db.Database.SqlQuery<int>($"select id as \"Value\" from portal.find_own({words}, '2026-10-02')").CountAsync());
        Task<int> AllAsync(TestAgency agency, Scope scope) => agency.Portal.ReadAsync(scope, db => db.Database.SqlQuery<int>($"select id as \"Value\" from portal.find_all({words}, '2026-10-02', true, 10)").CountAsync());
        var own = _agency.Person(_team.Odalys, _team.Wren);

        Assert.Equal(1, await OwnAsync(_agency, own));
        Assert.Equal(0, await OwnAsync(_agency, own with { Learners = [_team.Jonah] }));
        Assert.Equal(0, await OwnAsync(_agency, own with { Staff = false }));
        Assert.Equal(0, await OwnAsync(other, other.Person(other.Terminal, _team.Wren)));
        Assert.Equal((1, 0), (await AllAsync(_agency, _agency.WholeAgency), await AllAsync(other, other.WholeAgency)));
        Assert.Equal("42501", (await Assert.ThrowsAnyAsync<PostgresException>(() => AllAsync(_agency, own))).SqlState);
        Assert.Equal("42501", (await Assert.ThrowsAnyAsync<PostgresException>(() => OwnAsync(_agency, _agency.WholeAgency))).SqlState);
    }

    [Fact]
    public async Task Opened_last_come_first_and_only_those_of_todays_teams()
    {
        async Task OpenAsync(int learner, bool refused = false, params int[] more) => await _agency.AddAsync(
            new AccessRow { PersonId = _team.Odalys, Ground = "team", Page = "GET /Learners/Learner", LearnerIds = [learner, .. more], Refused = refused });
        await OpenAsync(_team.Wren);
        await OpenAsync(_team.Jonah);
        await OpenAsync(_team.Wren, refused: true);
        await OpenAsync(_team.Wren, more: _team.Jonah); // a list
        async Task<string> RecentAsync(int person) => string.Join(", ", (await _agency.Get<ReadRecent>().RunAsync(await _team.CallerAsync(person))).Select(l => l.Name));

        Assert.Equal(["Jonah Tarrow, Wren Belmares", ""], [await RecentAsync(_team.Odalys), await RecentAsync(_team.Bram)]);
        await OpenAsync(_team.Wren);
        Assert.Equal("Wren Belmares, Jonah Tarrow", await RecentAsync(_team.Odalys));
        await _agency.ChangeAsync<RelationRow>(r => r.PersonId == _team.Odalys && r.LearnerId == _team.Wren, r => r.ToDay = new(2026, 9, 30));
        Assert.Equal("Jonah Tarrow", await RecentAsync(_team.Odalys));
    }
}
