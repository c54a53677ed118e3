namespace TeamCircle.Core.MakeUps;

/// <summary>Minutes of travel between places, by the quickest way over places of the table.</summary>
/// <remarks>A pair that is given in one direction only takes as long in the other.</remarks>
public sealed class TravelTable
{
    private readonly Dictionary<string, int> _places = [];
    private readonly int[,] _minutes;
    private readonly bool _takesNoTime;

    /// <param name="legs">Of several legs between the same places the quickest counts.</param>
    public TravelTable(IReadOnlyCollection<(string From, string To, int Minutes)> legs)
    {
        Legs = legs;
        foreach (var place in legs.SelectMany(leg => new[] { leg.From, leg.To }))
            _places.TryAdd(place, _places.Count);
        _minutes = Table(legs);
        TakeQuickestWays();
    }

    private TravelTable(bool takesNoTime)
        : this([]) => _takesNoTime = takesNoTime;

    /// <summary>As they were given.</summary>
    public IReadOnlyCollection<(string From, string To, int Minutes)> Legs { get; }

    /// <summary>Everything is at one place.</summary>
    internal static TravelTable None { get; } = new(takesNoTime: true);

    /// <summary>Minutes from one place to another: zero at the same place, null where no way is known.</summary>
    public int? Between(string from, string to)
    {
        if (from == to || _takesNoTime)
            return 0;
        return _places.TryGetValue(from, out var i) && _places.TryGetValue(to, out var j) && _minutes[i, j] != int.MaxValue
            ? _minutes[i, j]
            : null;
    }

    private int[,] Table(IReadOnlyCollection<(string From, string To, int Minutes)> legs)
    {
        var table = new int[_places.Count, _places.Count];
        for (var i = 0; i < _places.Count; i++)
        {
            for (var j = 0; j < _places.Count; j++)
                table[i, j] = i == j ? 0 : int.MaxValue;
        }
        foreach (var (from, to, minutes) in legs)
            table[_places[from], _places[to]] = Math.Min(table[_places[from], _places[to]], minutes);
        foreach (var (from, to, _) in legs)
        {
            var (i, j) = (_places[from], _places[to]);
            if (table[j, i] == int.MaxValue)
                table[j, i] = table[i, j];
        }
        return table;
    }

    private void TakeQuickestWays()
    {
        for (var over = 0; over < _places.Count; over++)
        {
            for (var i = 0; i < _places.Count; i++)
            {
                for (var j = 0; j < _places.Count; j++)
                {
                    if (_minutes[i, over] != int.MaxValue && _minutes[over, j] != int.MaxValue)
                        _minutes[i, j] = Math.Min(_minutes[i, j], _minutes[i, over] + _minutes[over, j]);
                }
            }
        }
    }
}
