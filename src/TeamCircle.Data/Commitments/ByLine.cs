namespace TeamCircle.Data.Commitments;

/// <summary>Values of many lines in flat arrays: added in any order, then sorted by line, each line's in the order added.</summary>
/// <remarks>No object for each value: an audit of a large agency holds more than half a million of them.</remarks>
internal sealed class ByLine<T> where T : struct
{
    private int[] _lines = new int[256];
    private T[] _values = new T[256];
    private int[] _starts = [];
    private int[] _counts = [];
    private int _count;

    public void Add(int line, in T value)
    {
        if (_count == _lines.Length)
        {
            Array.Resize(ref _lines, _count * 2);
            Array.Resize(ref _values, _count * 2);
        }
        (_lines[_count], _values[_count]) = (line, value);
        _count++;
    }

    /// <summary>Drops what was added for some lines; only before <see cref="Sort"/>.</summary>
    public void Forget(Func<int, bool> isForgotten)
    {
        var kept = 0;
        for (var i = 0; i < _count; i++)
        {
            if (!isForgotten(_lines[i]))
                (_lines[kept], _values[kept++]) = (_lines[i], _values[i]);
        }
        _count = kept;
    }

    /// <summary>Sorts by line; afterwards nothing can be added.</summary>
    /// <param name="lines">The number of lines.</param>
    public void Sort(int lines)
    {
        _starts = new int[lines + 1];
        for (var i = 0; i < _count; i++)
            _starts[_lines[i] + 1]++;
        _counts = _starts.AsSpan(1).ToArray();
        for (var line = 0; line < lines; line++)
            _starts[line + 1] += _starts[line];
        var (sorted, next) = (new T[_count], _starts.AsSpan().ToArray());
        for (var i = 0; i < _count; i++)
            sorted[next[_lines[i]]++] = _values[i];
        (_values, _lines, _count) = (sorted, [], 0);
    }

    /// <summary>The values of a line; after <see cref="Sort"/>.</summary>
    public Span<T> Of(int line) => _values.AsSpan(_starts[line], _counts[line]);

    /// <summary>Drops the values of a line after the first <paramref name="count"/>.</summary>
    public void Trim(int line, int count) => _counts[line] = count;
}
