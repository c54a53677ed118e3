using System.Globalization;
using Microsoft.EntityFrameworkCore;
using TeamCircle.Core;
using TeamCircle.Core.MakeUps;
using TeamCircle.Core.People;
using TeamCircle.Data.Devices;

namespace TeamCircle.Data.Calendar;

/// <summary>Says how many minutes the way from one place to another takes, and how far it is. An empty field: nobody knows, and nothing is refused for it.</summary>
/// <remarks>No way may take longer than over other places of the table: the calendar asks for the way itself, the planner for the quickest one,
/// and so both mean the same (docs/decisions/0014).</remarks>
public sealed class SetTravelTimes(Portal portal)
{
    public const int MostMinutes = 600, MostDistance = 9999;

    public sealed class Way
    {
        public int From { get; set; }
        public int To { get; set; }
        public int? Minutes { get; set; }

        /// <summary>The way back, where it takes another time.</summary>
        public int? Back { get; set; }

        /// <summary>How far it is, there as back, in the agency's unit with at most one decimal; null: not known.</summary>
        public decimal? Distance { get; set; }

        internal int? Tenths => Distance is { } distance ? (int)(distance * 10) : null;
    }

    public sealed class Input
    {
        public List<Way> Ways { get; set; } = [];
    }

    public sealed record Saved(int Changed);

    public Task<Outcome<Saved>> RunAsync(Caller caller, Guid operation, Input input, CancellationToken stop = default) =>
        portal.WriteSettingsAsync(caller, "travel times", Operation.Of(operation, nameof(SetTravelTimes), input),
            db => WorkAsync(db, caller.AgencyId, input, stop), stop);

    private static async Task<Outcome<Saved>> WorkAsync(PortalDb db, int agency, Input input, CancellationToken stop)
    {
        Problem[] problems = [.. input.Ways.SelectMany((way, i) => Problems(way, i))];
        if (problems.Length > 0)
            return Outcome<Saved>.Refused(problems);
        var places = await db.Places.Where(p => p.AgencyId == agency && p.Live).Select(p => p.Id).ToListAsync(stop);
        if (input.Ways.Any(w => w.From == w.To || !places.Contains(w.From) || !places.Contains(w.To)))
            return Outcome<Saved>.Refused(Problem.NotFound);
        var standing = await db.TravelTimes.Where(t => t.AgencyId == agency).ToDictionaryAsync(t => (t.FromPlaceId, t.ToPlaceId), stop);
        var changes = input.Ways.SelectMany(w => new[] { (w.From, w.To, w.Minutes, w.Tenths), (From: w.To, To: w.From, Minutes: w.Back, w.Tenths) })
            .Where(w => standing.GetValueOrDefault((w.From, w.To)) is { } stands ? (stands.Minutes, stands.Tenths) != (w.Minutes ?? -1, w.Tenths) : w.Minutes is not null).ToList();
        foreach (var (from, to, _, _) in changes)
        {
            if (standing.GetValueOrDefault((from, to)) is { } old)
                (old.Live, old.TakenBackReason) = (false, "another time");
        }
        if (await DetoursAsync(db, agency, Table(standing.Values, changes), stop) is { Count: > 0 } detours)
            return Outcome<Saved>.Refused(detours);
        await db.SaveChangesAsync(stop);
        db.AddRange(changes.Where(c => c.Minutes is not null).Select(c => new TravelTimeRow { AgencyId = agency, FromPlaceId = c.From, ToPlaceId = c.To, Minutes = c.Minutes!.Value, Tenths = c.Tenths }));
        return Outcome<Saved>.Of(new(changes.Count));
    }

    /// <summary>The ways as they will stand.</summary>
    private static Dictionary<(int From, int To), int> Table(IEnumerable<TravelTimeRow> standing, IEnumerable<(int From, int To, int? Minutes, int? Tenths)> changes)
    {
        var table = standing.ToDictionary(t => (t.FromPlaceId, t.ToPlaceId), t => t.Minutes);
        foreach (var (from, to, minutes, _) in changes)
        {
            table.Remove((from, to));
            if (minutes is { } taken)
                table.Add((from, to), taken);
        }
        return table;
    }

    /// <summary>Ways that take longer than over other places.</summary>
    private static async Task<List<Problem>> DetoursAsync(PortalDb db, int agency, Dictionary<(int From, int To), int> table, CancellationToken stop)
    {
        var codes = await db.Places.Where(p => p.AgencyId == agency).ToDictionaryAsync(p => p.Id, p => p.Code, stop);
        var quickest = new TravelTable([.. table.Select(t => (codes[t.Key.From], codes[t.Key.To], t.Value))]);
        return [.. from way in table
                   let least = quickest.Between(codes[way.Key.From], codes[way.Key.To])
                   where least < way.Value
                   select new Problem("", string.Create(CultureInfo.InvariantCulture,
                       $"From {codes[way.Key.From]} to {codes[way.Key.To]} it takes {way.Value} minutes, but over other places of the table only {least}. Enter at most {least}, or correct those."))];
    }

    private static IEnumerable<Problem> Problems(Way way, int i)
    {
        if (way.Minutes is < 0 or > MostMinutes)
            yield return new($"{nameof(Input.Ways)}[{i}].{nameof(Way.Minutes)}", "Give minutes from 0 to 600, or leave it empty.");
        if (way.Back is < 0 or > MostMinutes)
            yield return new($"{nameof(Input.Ways)}[{i}].{nameof(Way.Back)}", "Give minutes from 0 to 600, or leave it empty.");
        if (way.Distance is < 0 or > MostDistance || way.Distance * 10 % 1 is > 0)
            yield return new($"{nameof(Input.Ways)}[{i}].{nameof(Way.Distance)}", "Give the distance from 0 to 9,999 with at most one decimal, or leave it empty.");
        else if (way is { Distance: not null, Minutes: null })
            yield return new($"{nameof(Input.Ways)}[{i}].{nameof(Way.Minutes)}", "Give the minutes of this way too.");
    }
}
