using TeamCircle.Core.Commitments;

namespace TeamCircle.Data.Commitments;

/// <summary>Entries of many lines, each with the person who gave it or is to give it.</summary>
internal sealed class EntriesByLine
{
    private readonly ByLine<Entry> _entries = new();
    private readonly ByLine<int> _people = new();

    public void Add(int line, int person, in Entry entry)
    {
        _entries.Add(line, entry);
        _people.Add(line, person);
    }

    /// <summary>Drops what was added for some lines.</summary>
    public void Forget(Func<int, bool> isForgotten)
    {
        _entries.Forget(isForgotten);
        _people.Forget(isForgotten);
    }

    /// <summary>Sorts by line; afterwards nothing can be added. Of probes, one a day and person is kept.</summary>
    public void Sort(IReadOnlyList<CommitmentLine> lines)
    {
        _entries.Sort(lines.Count);
        _people.Sort(lines.Count);
        for (var line = 0; line < lines.Count; line++)
        {
            if (lines[line].IsProbes)
                KeepOneADay(line);
        }
    }

    public ReadOnlySpan<Entry> Of(int line) => _entries.Of(line);

    /// <summary>Who gave, or is to give, each entry of a line.</summary>
    public ReadOnlySpan<int> PeopleOf(int line) => _people.Of(line);

    /// <summary>Where there are several on one day, the one that makes up for nothing comes first.</summary>
    private void KeepOneADay(int line)
    {
        var entries = _entries.Of(line);
        var people = _people.Of(line);
        if (entries.Length < 2)
            return;
        var keys = new (int Day, int Person, int Pays)[entries.Length];
        for (var i = 0; i < keys.Length; i++)
            keys[i] = (entries[i].Day, people[i], entries[i].Pays);
        Array.Sort(keys);
        var kept = 0;
        for (var i = 0; i < keys.Length; i++)
        {
            if (i > 0 && (keys[i].Day, keys[i].Person) == (keys[i - 1].Day, keys[i - 1].Person))
                continue;
            entries[kept] = new(keys[i].Day, 1, keys[i].Pays);
            people[kept++] = keys[i].Person;
        }
        _entries.Trim(line, kept);
        _people.Trim(line, kept);
    }
}
