using CsCheck;
using NodaTime;
using TeamCircle.Core.Cases;
using TeamCircle.Core.Closing;
using TeamCircle.Core.Commitments;
using TeamCircle.Core.Learners;
using TeamCircle.Core.Tests.Commitments;
using TeamCircle.Core.Time;

namespace TeamCircle.Core.Tests.Closing;

/// <summary>What is sealed can be worked out by anybody: written inputs come to the same answer, letter by letter.</summary>
public sealed class SealedFiguresTests
{
    private static CommitmentCase Weekly() => new()
    {
        Calendar = new ALine().Calendar,
        Periods = [ALine.FirstPeriod],
        Period = ALine.FirstPeriod,
        Plan = ALine.Year,
        Promise = new ALine().Promise,
        Policy = Policy.Default,
        Given = [],
        Decisions = [],
        Planned = [],
        OtherBusy = [],
        AsOf = Day.Of(new LocalDate(2026, 10, 20)),
        DailyLimit = null,
    };

    [Fact]
    public void Inputs_of_any_world_are_read_back_and_come_to_the_same_answer() => Worlds.Any.Sample(world =>
    {
        var inputs = CanonicalJson.Write(json => CommitmentCaseJson.Write(json, world.Case()));
        var working = world.WorkOut();
        if (world.Case() is var line && line.Given.Concat(line.Planned).Any(e => e.Pays != Day.None && working.Windows.Find(e.Pays) < 0))
            return; // bad input, which is left out before anything is sealed

        var answer = SealedFigures.Answer(inputs);

        Assert.Equal(CanonicalJson.Write(json => CommitmentAnswer.Write(json, working)), answer);
        Assert.Equal(CanonicalJson.Of(CaseFile.WorkOut(inputs)), answer);
        Assert.Equal(inputs, CanonicalJson.Write(json => CommitmentCaseJson.Write(json, CommitmentCase.Read(CaseField.Parse(inputs)))));
    });

    [Fact]
    public void Later_policies_a_wording_and_what_was_brought_forward_are_written_and_read_too()
    {
        var line = Weekly() with
        {
            LaterPolicies = [(Day.Of(new LocalDate(2026, 10, 19)), new(ShortWindow.AtLeastHalf, Surplus.CarryWithinPeriod, 5, 80))],
            BroughtForward = [new(Day.Of(new LocalDate(2026, 8, 21)), Day.Of(new LocalDate(2026, 8, 28)), new(30, 1), new(10, 0), default)],
        };
        line = line with { Promise = new(line.Promise.Every, line.Promise.Dates, [.. line.Promise.Versions]) { Wording = Wording.UpTo } };

        var read = CommitmentCase.Read(CaseField.Parse(CanonicalJson.Write(json => CommitmentCaseJson.Write(json, line))));

        Assert.Equal(line.LaterPolicies, read.LaterPolicies);
        Assert.Equal(line.BroughtForward, read.BroughtForward);
        Assert.Equal(Wording.UpTo, read.Promise.Wording);
        Assert.Equal(Status.CannotJudge, read.WorkOut().Balance.Status);
    }

    [Fact]
    public void A_make_up_given_after_the_days_that_bear_on_a_count_leaves_what_it_holds_and_one_within_does_not()
    {
        var lacking = Weekly();
        var end = lacking.Period.Last;
        Entry Pays(int day) => new(day, 30, lacking.Period.First);

        var held = SealedFigures.Held(lacking, end);

        Assert.Equal(held, SealedFigures.Held(lacking with { Given = [.. lacking.Given, Pays(end + 1)] }, end));
        Assert.NotEqual(held["given"], SealedFigures.Held(lacking with { Given = [.. lacking.Given, Pays(end)] }, end)["given"]);
    }

    [Fact]
    public void Canonical_json_orders_names_by_their_codes_and_keeps_numbers_and_letters()
    {
        Assert.Equal("""{"B":1.50,"a":[{"x":null,"y":"é \" <"}],"aB":true}""", CanonicalJson.Of(" { \"aB\" : true, \"a\": [ {\"y\":\"\\u00e9 \\\" <\", \"x\":null} ],\n \"B\": 1.50 } "));
        Assert.ThrowsAny<System.Text.Json.JsonException>(() => CanonicalJson.Of("""{"a":1,"a":2}"""));
    }

    [Fact]
    public void The_hash_of_a_statement_changes_with_everything_in_it()
    {
        var line = new SealedLine(0, 5, null, null, "{\"a\":1}", "{\"b\":2}");
        var whole = new SealedStatement(
            1, 2, 3, 2, 4, Instant.FromUtc(2026, 10, 20, 8, 0), "Licence 1", "I close it.", "1", "{}", new(2026, 10, 20), "{}", "[]", "ab", 7, "late", 9, [line]);
        SealedStatement[] others =
        [
            whole with { Agency = 9 }, whole with { Learner = 9 }, whole with { Period = 9 }, whole with { Edition = 9 }, whole with { SealedBy = 9 },
            whole with { SealedAt = whole.SealedAt.PlusTicks(10) }, whole with { Credential = "x" }, whole with { Meaning = "x" }, whole with { Rules = "x" },
            whole with { Policy = "[]" }, whole with { AsOf = new(2026, 10, 21) }, whole with { Facts = "[]" }, whole with { LeftStanding = "{}" }, whole with { Block = null },
            whole with { Restates = null }, whole with { Reason = null }, whole with { ReopenedBy = null }, whole with { Lines = [] },
            whole with { Lines = [line with { Position = 1 }] }, whole with { Lines = [line with { Service = 6 }] }, whole with { Lines = [line with { Service = null, Goal = 5 }] },
            whole with { Lines = [line with { Owner = 1 }] }, whole with { Lines = [line with { Inputs = "{}" }] }, whole with { Lines = [line with { Answer = "{}" }] },
        ];

        Assert.Equal(others.Length + 1, others.Append(whole).Select(s => s.Hash()).Distinct().Count());
        Assert.Equal(whole.Hash(), (whole with { Lines = [line with { }] }).Hash());
    }

    [Fact]
    public void A_count_is_closed_after_its_period_with_a_word_on_everything_left_and_a_credential()
    {
        var (end, obstacle) = (new LocalDate(2026, 10, 16), new Obstacle(ObstacleKind.Undecided, 5, null, 30, []));
        string[] Fields(LocalDate today, string? word, string? credential) =>
            [.. ClosingRules.Check(today, end, [obstacle], new Dictionary<string, string?> { [obstacle.Key] = word }, credential).Select(p => p.Field)];

        Assert.Equal(["", "Why[Undecided-5-]", "Credential"], Fields(end, " ", null));
        Assert.Equal(["Why[Undecided-5-]"], Fields(end.PlusDays(1), new string('a', 1001), "Licence 1"));
        Assert.Empty(Fields(end.PlusDays(1), "the family meets on Friday", "Licence 1"));
        Assert.Equal("so", Assert.Single(ClosingRules.Left([obstacle], new Dictionary<string, string?> { [obstacle.Key] = " so " })).Why);
    }

    [Theory]
    [InlineData("2026-10-10", null, true)]
    [InlineData("2026-10-17", null, true)] // a Saturday after the period, in a week that closed in it
    [InlineData("2026-10-19", null, false)]
    [InlineData("2026-10-19", "2026-10-10", false)] // pays what was brought forward
    [InlineData("2026-08-10", "2026-10-10", true)] // pays, but was given before
    [InlineData("2026-08-10", null, false)]
    public void Days_that_bear_on_a_closed_count_take_nothing_but_a_make_up_given_after_them(string day, string? pays, bool refused)
    {
        var days = new ClosedDays(DateRange.Of(new(2026, 8, 17), new(2026, 10, 18)));
        static LocalDate Read(string text) => NodaTime.Text.LocalDatePattern.Iso.Parse(text).Value;

        Assert.Equal(refused, days.Refuse(Read(day), pays is null ? null : Read(pays)));
    }
}
