using System.Runtime.InteropServices;

namespace TeamCircle.Data.Commitments;

/// <summary>Rows that belong to a parent, added in the order of their parents.</summary>
internal sealed class Groups<T>
{
    private readonly List<T> _items = [];
    private readonly Dictionary<int, (int Start, int Count)> _places = [];

    /// <exception cref="ArgumentException">Another parent's rows came in between.</exception>
    public void Add(int parent, T item)
    {
        ref var place = ref CollectionsMarshal.GetValueRefOrAddDefault(_places, parent, out var isKnown);
        if (!isKnown)
            place.Start = _items.Count;
        else if (place.Start + place.Count != _items.Count)
            throw new ArgumentException("Rows come in the order of their parents.", nameof(parent));
        _items.Add(item);
        place.Count++;
    }

    public ReadOnlySpan<T> Of(int parent) =>
        _places.TryGetValue(parent, out var place) ? CollectionsMarshal.AsSpan(_items).Slice(place.Start, place.Count) : [];
}
