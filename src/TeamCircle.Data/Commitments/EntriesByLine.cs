using TeamCircle.Core.Commitments;

namespace TeamCircle.Data.Commitments;

/// <summary>Entries of many lines, each with the person who gave it or is to give it.</summary>
internal sealed class EntriesByLine
{
    private readonly ByLine<Entry> _entries = new();
    private (int Day, int Person, int Pays)[] _keys = [];

    public void Add(int line, int person, in Entry entry) => _entries.Add(line, person, entry);

    /// <summary>Drops what was added for some lines.</summary>
    public void Forget(Func<int, bool> isForgotten) => _entries.Forget(isForgotten);

    /// <summary>Sorts by line; afterwards nothing can be added. Of probes, each of which counts as one, one a day and person is kept.</summary>
    public void Sort(IReadOnlyList<CommitmentLine> lines)
    {
        _entries.Sort(lines.Count);
        for (var line = 0; line < lines.Count; line++)
        {
            if (lines[line].IsProbes && !IsOneADay(_entries.Of(line)))
                KeepOneADay(line);
        }
    }

    public ReadOnlySpan<Entry> Of(int line) => _entries.Of(line);

    /// <summary>Who gave, or is to give, each entry of a line.</summary>
    public ReadOnlySpan<int> PeopleOf(int line) => _entries.NumbersOf(line);

    /// <summary>Whether each is of a later day than the one before, as they mostly come.</summary>
    private static bool IsOneADay(ReadOnlySpan<Entry> entries)
    {
        for (var i = 1; i < entries.Length; i++)
        {
            if (entries[i].Day <= entries[i - 1].Day)
                return false;
        }
        return true;
    }

    /// <summary>Where there are several on one day, the one that makes up for nothing comes first.</summary>
    private void KeepOneADay(int line)
    {
        var entries = _entries.Of(line);
        var people = _entries.NumbersOf(line);
        if (_keys.Length < entries.Length)
            _keys = new (int, int, int)[entries.Length * 2];
        var keys = _keys.AsSpan(0, entries.Length);
        for (var i = 0; i < keys.Length; i++)
            keys[i] = (entries[i].Day, people[i], entries[i].Pays);
        keys.Sort();
        var kept = 0;
        for (var i = 0; i < keys.Length; i++)
        {
            if (i > 0 && (keys[i].Day, keys[i].Person) == (keys[i - 1].Day, keys[i - 1].Person))
                continue;
            entries[kept] = new(keys[i].Day, 1, keys[i].Pays);
            people[kept++] = keys[i].Person;
        }
        _entries.Trim(line, kept);
    }
}
