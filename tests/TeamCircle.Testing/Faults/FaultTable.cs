using System.Globalization;

namespace TeamCircle.Testing.Faults;

/// <summary>What came of a run's faults, as one table: where acts were when it came, the answers to them, and how often each invariant was looked at and broken.</summary>
public sealed class FaultTable
{
    private static readonly string[] Invariants = ["INV1", "INV2", "INV3", "INV4", "INV5", "INV6", "INV7", "INV8"];
    private readonly Lock _lock = new();
    private readonly SortedDictionary<string, Row> _rows = new(StringComparer.Ordinal);
    private readonly Dictionary<string, (int Looks, int Broken)> _looks = [];
    private readonly List<string> _broken = [];
    private int _faults;

    /// <summary>What is broken, each in a sentence; a run that holds has none.</summary>
    public IReadOnlyList<string> Broken
    {
        get
        {
            lock (_lock)
                return [.. _broken];
        }
    }

    /// <summary>Acts whose outcome nobody was told. A run without any has tested nothing.</summary>
    public int Unknown
    {
        get
        {
            lock (_lock)
                return _rows.Values.Sum(r => r.Unknown);
        }
    }

    /// <summary>Acts that were refused for good.</summary>
    public int Refused
    {
        get
        {
            lock (_lock)
                return _rows.Values.Sum(r => r.Refused);
        }
    }

    /// <summary>Counts one fault; it may have met acts in several places.</summary>
    public void Count() => Interlocked.Increment(ref _faults);

    /// <summary>Counts what was under way in one place when a fault came.</summary>
    /// <param name="sent">The acts that were under way.</param>
    /// <param name="found">What the database holds afterwards, before anything is sent again; null where nobody looked.</param>
    public void Count(string place, SentActs acts, IReadOnlyCollection<Guid> sent, Found? found)
    {
        lock (_lock)
        {
            var before = _rows.GetValueOrDefault(place);
            _rows[place] = new(
                before.Times + 1, before.Sent + sent.Count, before.Ok + sent.Count(acts.Acknowledged.ContainsKey), before.Refused + sent.Count(acts.Refused.Contains),
                before.Unknown + sent.Count(acts.Unknown.Contains),
                before.Stored + sent.Count(id => acts.Unknown.Contains(id) && found?.Stored.Contains(id) == true),
                before.Aside + sent.Count(id => acts.Unknown.Contains(id) && found?.Aside.Contains(id) == true));
        }
    }

    /// <summary>Counts that these invariants were looked at, and which of them are broken.</summary>
    public void Count(Found found)
    {
        lock (_lock)
        {
            foreach (var invariant in found.Looked)
            {
                var (looks, broken) = _looks.GetValueOrDefault(invariant);
                _looks[invariant] = (looks + 1, broken + found.Broken.Count(b => b.StartsWith(invariant, StringComparison.Ordinal)));
            }
            _broken.AddRange(found.Broken);
        }
    }

    public IEnumerable<string> Lines()
    {
        lock (_lock)
        {
            var all = _rows.Values.Aggregate(default(Row), (sum, r) => sum + r);
            return
            [
                "| where | times | acts sent | :ok | :fail | :info | of :info found stored | found set aside |",
                "|---|---|---|---|---|---|---|---|",
                .. _rows.Select(r => Line(r.Key, r.Value)),
                Line("together", all),
                "",
                $"| {string.Join(" | ", Invariants)} |",
                $"|{string.Concat(Enumerable.Repeat("---|", Invariants.Length))}",
                $"| {string.Join(" | ", Invariants.Select(Said))} |",
                "",
                string.Create(CultureInfo.InvariantCulture, $"{_faults} faults. No failure in n of them bounds its chance by 3/n at 95 % (rule of three): {300.0 / Math.Max(_faults, 3):0.0} %."),
                .. _broken.Take(50),
            ];
        }
    }

    private string Said(string invariant) => _looks.TryGetValue(invariant, out var look)
        ? look.Broken == 0 ? $"held, {look.Looks} looks" : $"BROKEN {look.Broken} times"
        : "not looked at";

    private static string Line(string name, Row r) => string.Create(CultureInfo.InvariantCulture,
        $"| {name} | {r.Times} | {r.Sent} | {r.Ok} | {r.Refused} | {r.Unknown} | {r.Stored} | {r.Aside} |");

    private readonly record struct Row(int Times, int Sent, int Ok, int Refused, int Unknown, int Stored, int Aside)
    {
        public static Row operator +(Row a, Row b) =>
            new(a.Times + b.Times, a.Sent + b.Sent, a.Ok + b.Ok, a.Refused + b.Refused, a.Unknown + b.Unknown, a.Stored + b.Stored, a.Aside + b.Aside);
    }
}
