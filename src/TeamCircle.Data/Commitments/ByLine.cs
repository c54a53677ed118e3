namespace TeamCircle.Data.Commitments;

/// <summary>Values of many lines in flat arrays, each with a number beside it (who gave it, or its row): added in any order, then sorted by line, each line's
/// in the order added.</summary>
/// <remarks>No object for each value: an audit of a large agency holds more than half a million of them. They gather in blocks, since an
/// array that grows by doubling is a large object each time, and each large object brings a full collection nearer.</remarks>
internal sealed class ByLine<T> where T : struct
{
    private const int BlockLength = 2048;

    private readonly List<One[]> _blocks = [];
    private T[] _values = [];
    private int[] _numbers = [];
    private int[] _starts = [];
    private int[] _counts = [];
    private int _count;

    private readonly record struct One(int Line, int Number, T Value);

    public void Add(int line, int number, in T value)
    {
        var at = _count % BlockLength;
        if (at == 0 && _count / BlockLength == _blocks.Count)
            _blocks.Add(new One[BlockLength]);
        _blocks[_count++ / BlockLength][at] = new(line, number, value);
    }

    /// <summary>Drops what was added for some lines; only before <see cref="Sort"/>.</summary>
    public void Forget(Func<int, bool> isForgotten)
    {
        var added = _count;
        _count = 0;
        for (var i = 0; i < added; i++)
        {
            ref readonly var one = ref At(i);
            if (!isForgotten(one.Line))
                Add(one.Line, one.Number, one.Value);
        }
    }

    /// <summary>Sorts by line; afterwards nothing can be added.</summary>
    /// <param name="lines">The number of lines.</param>
    public void Sort(int lines)
    {
        (_counts, _starts) = (new int[lines], new int[lines]);
        for (var i = 0; i < _count; i++)
            _counts[At(i).Line]++;
        for (var line = 1; line < lines; line++)
            _starts[line] = _starts[line - 1] + _counts[line - 1];
        (_values, _numbers) = (new T[_count], new int[_count]);
        for (var i = 0; i < _count; i++)
        {
            ref readonly var one = ref At(i);
            var at = _starts[one.Line]++;
            (_values[at], _numbers[at]) = (one.Value, one.Number);
        }
        for (var line = 0; line < lines; line++)
            _starts[line] -= _counts[line]; // each had moved on to its line's end
        _blocks.Clear();
    }

    /// <summary>The values of a line; after <see cref="Sort"/>.</summary>
    public Span<T> Of(int line) => _values.AsSpan(_starts[line], _counts[line]);

    /// <summary>The number beside each of <see cref="Of"/>.</summary>
    public Span<int> NumbersOf(int line) => _numbers.AsSpan(_starts[line], _counts[line]);

    /// <summary>Drops the values of a line after the first <paramref name="count"/>.</summary>
    public void Trim(int line, int count) => _counts[line] = count;

    private ref readonly One At(int index) => ref _blocks[index / BlockLength][index % BlockLength];
}
