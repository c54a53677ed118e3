using System.Runtime.InteropServices;

namespace TeamCircle.Data.Commitments;

/// <summary>Rows that belong to a parent, added in ascending order of their parents.</summary>
internal sealed class Groups<T>
{
    private readonly List<T> _items = [];
    private readonly List<int> _parents = [];
    private readonly List<int> _starts = [];

    /// <exception cref="ArgumentException">Rows of a later parent came before.</exception>
    public void Add(int parent, T item)
    {
        if (_parents.Count == 0 || _parents[^1] < parent)
        {
            _parents.Add(parent);
            _starts.Add(_items.Count);
        }
        else if (_parents[^1] != parent)
        {
            throw new ArgumentException("Rows come in the order of their parents.", nameof(parent));
        }
        _items.Add(item);
    }

    public ReadOnlySpan<T> Of(int parent)
    {
        var place = _parents.BinarySearch(parent);
        if (place < 0)
            return [];
        var end = place + 1 < _starts.Count ? _starts[place + 1] : _items.Count;
        return CollectionsMarshal.AsSpan(_items)[_starts[place]..end];
    }
}
