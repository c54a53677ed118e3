using System.Globalization;
using System.Text;
using System.Text.Json;
using CsCheck;
using NodaTime;
using TeamCircle.Core.Commitments;
using TeamCircle.Core.Time;

namespace TeamCircle.Core.Tests.Commitments;

/// <summary>What holds in every world. A failure prints the seed that repeats it, and the world.</summary>
public sealed class LedgerPropertyTests
{
    [Fact]
    public void Ledger_equals_the_naive_recount_day_by_day() => Worlds.Any.Sample(world =>
    {
        var differences = Differences(new NaiveRecount(world).Answer(), Flat(world.WorkOut()));
        Assert.True(differences.Length == 0, differences);
    }, iter: 1500, print: Print);

    [Fact]
    public void Every_window_is_judged_exactly_once_whatever_the_periods() => Worlds.Any.Sample(world =>
    {
        var judged = new List<int>();
        Working working = world.WorkOut();
        foreach (var period in world.Periods)
            judged.AddRange((world with { Period = period }).WorkOut().Closing.Select(w => w.Index));
        judged.AddRange(working.Windows.ClosingInNoPeriod);

        var active = Enumerable.Range(0, working.Windows.All.Length).Where(i => working.Windows.All[i].IsActive).ToArray();
        Assert.Equal(active, judged.Order());
    }, iter: 1000, print: Print);

    [Fact]
    public void Pace_within_a_window_adds_up_to_what_it_owes() => Worlds.Any.Sample(world =>
    {
        var asked = world with { Decisions = [] };
        var open = asked.WorkOut().Open;
        if (open.Count == 0)
            return;
        var window = open[0].Window;
        // the period is moved so that its end walks through the window; the last step lies one day before it closes
        var start = window.Window.Days.Start;
        var (sum, last) = (new Ratio(0, 1), new Ratio(0, 1));
        for (var day = window.Window.Active.First; day < window.Window.Closes; day++)
        {
            var then = asked with { Period = (start, Day.Date(day)), AsOf = Day.Date(day + 1) };
            var pace = Assert.Single(then.WorkOut().Open).Pace;
            Assert.Equal(day, pace.UpTo);
            Assert.False(pace.Whole.Over * last.Under < last.Over * pace.Whole.Under, "pace never falls");
            Assert.Equal(pace.Whole.Rounded, pace.Pace);
            last = pace.Whole;
            sum = pace.Whole;
        }
        var closed = Assert.Single((asked with { Period = (start, Day.Date(window.Window.Closes)) }).WorkOut().Closing);
        var version = closed.Versions[^1].Version;
        var lastDay = closed.Divisor == 0 ? Ratio.Zero : new Ratio(version.Quantity, closed.Divisor);
        Assert.Equal(closed.Minutes.Owed, sum.Plus(lastDay).Rounded);
    }, iter: 300, print: Print);

    [Fact]
    public void Order_of_ordinary_entries_does_not_matter() => Gen.Select(Worlds.Any, Gen.Int).Sample((world, shuffle) =>
    {
        // make-ups keep their order, and stand anywhere between the others
        var makeUps = world.Given.Where(g => g.Pays is not null);
        var random = new Random(shuffle);
        var others = world.Given.Where(g => g.Pays is null).ToArray();
        random.Shuffle(others);
        var mixed = others.ToList();
        foreach (var makeUp in makeUps.Reverse())
            mixed.Insert(mixed.FindIndex(g => g.Pays is not null) is var first and >= 0 ? random.Next(first + 1) : random.Next(mixed.Count + 1), makeUp);

        Assert.Equal(Json(world.WorkOut()), Json((world with { Given = [.. mixed] }).WorkOut()));
    }, iter: 1000, print: w => Print(w.Item1));

    [Fact]
    public void More_given_before_the_day_never_raises_what_lacks() =>
        Gen.Select(Worlds.Any, Gen.Int[0, 240], Gen.Int[0, 100], Gen.Int[-100, 240]).Sample((world, back, amount, pays) =>
        {
            var date = world.AsOf.PlusDays(-1 - back % 120);
            LocalDate? pay = pays < 0 ? null : date.PlusDays(pays - 120);
            var before = world.WorkOut().Balance;
            var after = (world with { Given = [.. world.Given, (date, amount, pay)] }).WorkOut().Balance;

            Assert.True(after.Minutes.Lack <= before.Minutes.Lack, "lack");
            Assert.True(after.Minutes.LackSoFar <= before.Minutes.LackSoFar, "lack so far");
            Assert.True(after.Sessions.Lack <= before.Sessions.Lack, "sessions lacking");
            Assert.True(after.Minutes.ShortAsPlanned <= before.Minutes.ShortAsPlanned, "short as planned");
            Assert.True(after.Sessions.ShortAsPlanned <= before.Sessions.ShortAsPlanned, "sessions short as planned");
        }, iter: 2000, print: w => $"{Print(w.Item1)} back {w.Item2} amount {w.Item3} pays {w.Item4}");

    [Fact]
    public void Decision_never_exceeds_what_lacks() => Worlds.Any.Sample(world =>
    {
        var working = world.WorkOut();
        var undecided = (world with { Decisions = [] }).WorkOut();
        foreach (var (window, plain) in working.Closing.Zip(undecided.Closing))
        {
            Assert.InRange(window.Minutes.NotOwed, 0, plain.Minutes.Lack);
            Assert.InRange(window.Sessions.NotOwed, 0, plain.Sessions.Lack);
            Assert.InRange(window.Minutes.Undecided, 0, window.Minutes.Lack);
            Assert.Equal(plain.Minutes.Given, window.Minutes.Given);
        }
        Assert.InRange(working.Balance.Minutes.Undecided, 0, working.Balance.Minutes.LackSoFar);
    }, iter: 1000, print: Print);

    [Fact]
    public void Every_minute_given_is_accounted_for_once() => Worlds.Any.Sample(world =>
    {
        var working = world.WorkOut();
        var parts = working.GivenEntries.Where(e => e.Fate is not (Fate.AfterAsOf or Fate.NamesNoWindow)).ToList();

        Assert.Equal(world.Given.Length, working.GivenEntries.Count);
        Assert.All(parts, e => Assert.Equal(e.Entry.Amount, e.Parts.Counted + e.Parts.Paid + e.Parts.Outside));
        Assert.Equal(working.Balance.Outside, parts.Sum(e => e.Parts.Outside));
        foreach (var window in working.Closing.Concat(working.Elsewhere))
        {
            Assert.Equal(window.Minutes.Given, parts.Sum(e => (e.Parts.Own == window.Index ? e.Parts.Counted : 0)
                + (e.Parts.Pays == window.Index ? e.Parts.Paid : 0)));
            Assert.Equal(window.Sessions.Given, parts.Count(e => e.Parts.SessionOf == window.Index));
        }
    }, iter: 1000, print: Print);

    [Fact]
    public void Used_desk_answers_like_a_fresh_one() => Worlds.Any.Array[2, 6].Sample(worlds =>
    {
        var desk = new LedgerDesk();
        foreach (var world in worlds)
        {
            var single = world.Case();
            var facts = new LineFacts
            {
                Promise = single.Promise,
                Windows = new WindowCatalog(single.Calendar, single.Periods).Of(single.Promise, single.Plan),
                Given = single.Given,
                Planned = single.Planned,
                Decisions = single.Decisions,
            };
            var at = new Judging(single.Period, single.AsOf, new Policies(single.Policy));
            Assert.Equal(Ledger.Explain(facts, at).Balance, Ledger.Judge(facts, at, desk));
        }
    }, iter: 500);

    private static string Json(Working working)
    {
        using var buffer = new MemoryStream();
        using (var json = new Utf8JsonWriter(buffer))
            CommitmentAnswer.Write(json, working);
        return Encoding.UTF8.GetString(buffer.ToArray());
    }

    /// <summary>The ledger's answer in the shape of the naive one.</summary>
    private static SortedDictionary<string, object?> Flat(Working working)
    {
        var flat = new SortedDictionary<string, object?>(StringComparer.Ordinal);
        using var json = JsonDocument.Parse(Json(working));
        foreach (var field in json.RootElement.EnumerateObject())
        {
            flat[field.Name] = field.Value.ValueKind switch
            {
                JsonValueKind.Array => string.Join("; ", field.Value.EnumerateArray()
                    .Select(w => string.Join(" ", w.EnumerateObject().Select(p => p.Value.ToString())))),
                JsonValueKind.Number => field.Value.GetInt32(),
                JsonValueKind.Null => null,
                _ => field.Value.GetString(),
            };
        }
        return flat;
    }

    private static string Differences(SortedDictionary<string, object?> naive, SortedDictionary<string, object?> ledger) => string.Join('\n',
        naive.Keys.Union(ledger.Keys).Where(k => !Equals(naive.GetValueOrDefault(k, "none"), ledger.GetValueOrDefault(k, "none")))
            .Select(k => $"{k}: recount {naive.GetValueOrDefault(k, "none") ?? "null"}, ledger {ledger.GetValueOrDefault(k, "none") ?? "null"}"));

    internal static string Print(World world)
    {
        static string Show(object? value) => value switch
        {
            Array list => "[" + string.Join(", ", list.Cast<object?>().Select(Show)) + "]",
            IFormattable one => one.ToString(null, CultureInfo.InvariantCulture),
            _ => value?.ToString() ?? "null",
        };
        return string.Join('\n', typeof(World).GetProperties().Where(p => p.Name != nameof(World.Calendar))
            .Select(p => $"{p.Name} = {Show(p.GetValue(world))}"));
    }
}
