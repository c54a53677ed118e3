using NodaTime;
using TeamCircle.Core.Learners;

namespace TeamCircle.Core.Import;

/// <summary>Refuses rows that name a visit twice, or that put a provider, or a learner in their own time, in two places at once.</summary>
/// <remarks>
/// Of two rows the later one is refused, and of a row and a stored visit the row. A refused row is in nobody's way. Two
/// visits may share their time where they are one group session, or one learner's co-treatment that both services allow.
/// </remarks>
internal sealed class VisitClashes(IReadOnlyList<StoredVisit> stored)
{
    private readonly record struct Slot(
        string Provider, string Learner, LocalDate Date, LocalTime Start, LocalTime End, bool LearnersTime, bool Groups, CoTreatment CoTreatment);

    private readonly Dictionary<(char, string, LocalDate), List<Slot>> _taken = [];
    private readonly Dictionary<VisitKey, RowCells> _keys = [];
    private readonly Dictionary<string, RowCells> _refs = new(StringComparer.OrdinalIgnoreCase);
    private readonly Dictionary<Guid, RowCells> _replaced = [];

    public void Check(IReadOnlyList<VisitCandidate> rows)
    {
        // A stored visit that a row replaces stands aside for it; if that row is refused, it stands after all.
        for (var before = -1; ;)
        {
            var replaced = rows.Where(r => r.Stands && r.Line!.Stored is not null).Select(r => r.Line!.Stored!.Id).ToHashSet();
            if (replaced.Count == before)
                return;
            before = replaced.Count;
            Clear();
            foreach (var visit in stored.Where(v => v.TakesTime && !replaced.Contains(v.Id)))
                Take(Of(visit));
            foreach (var row in rows)
                Check(row);
        }
    }

    private void Clear()
    {
        _taken.Clear();
        _keys.Clear();
        _refs.Clear();
        _replaced.Clear();
    }

    private void Check(VisitCandidate row)
    {
        if (!row.Stands)
            return;
        CheckTwice(row);
        if (row.Stands && row.Line!.TakesTime)
            Place(row.Cells, Of(row.Line));
        if (!row.Stands)
            return;
        _keys[row.Key!.Value] = row.Cells;
        if (row.Ref is not null)
            _refs[row.Ref] = row.Cells;
        if (row.Line!.Stored is { } replaced)
            _replaced[replaced.Id] = row.Cells;
    }

    private void CheckTwice(VisitCandidate row)
    {
        if (_keys.TryGetValue(row.Key!.Value, out var same))
            row.Cells.Refuse("start", $"This visit (service, date and start) stands twice: first {Place(row, same)}.");
        if (row.Ref is { } number && _refs.TryGetValue(number, out var numbered))
            row.Cells.Refuse("ref", $"This number stands twice: first {Place(row, numbered)}.");
        if (row.Line!.Stored is { } visit && _replaced.TryGetValue(visit.Id, out var other))
            row.Cells.Refuse("start", $"This is the stored visit that was already named {Place(row, other)}.");
    }

    private static string Place(VisitCandidate row, RowCells other) =>
        row.Cells.File == other.File ? $"on line {other.Line}" : $"in {other.File} on line {other.Line}";

    private void Place(RowCells cells, Slot slot)
    {
        if (Others('p', slot.Provider, slot.Date).Exists(other => Overlap(other, slot) && !MayShare(other, slot)))
            cells.Refuse("start", "The provider would be in two places at once.");
        else if (slot.LearnersTime && Others('l', slot.Learner, slot.Date).Exists(other => Overlap(other, slot) && !MayShare(other, slot)))
            cells.Refuse("start", "The learner would be in two places at once, and the services do not both allow co-treatment.");
        else
            Take(slot);
    }

    private void Take(Slot slot)
    {
        Others('p', slot.Provider, slot.Date).Add(slot);
        if (slot.LearnersTime)
            Others('l', slot.Learner, slot.Date).Add(slot);
    }

    private List<Slot> Others(char who, string name, LocalDate date)
    {
        var key = (who, name.ToUpperInvariant(), date);
        if (!_taken.TryGetValue(key, out var slots))
            _taken[key] = slots = [];
        return slots;
    }

    private static bool Overlap(Slot one, Slot other) => one.Start < other.End && other.Start < one.End;

    private static bool MayShare(Slot one, Slot other) => IsOneGroup(one, other) || IsCoTreatment(one, other);

    private static bool IsOneGroup(Slot one, Slot other) =>
        one.Groups && other.Groups && one.Start == other.Start && one.End == other.End && Same(one.Provider, other.Provider);

    private static bool IsCoTreatment(Slot one, Slot other) =>
        one.CoTreatment != CoTreatment.None && other.CoTreatment != CoTreatment.None && Same(one.Learner, other.Learner);

    private static bool Same(string one, string other) => string.Equals(one, other, StringComparison.OrdinalIgnoreCase);

    private static Slot Of(StoredVisit v) =>
        new(v.Provider, v.Learner, v.Date, v.Start, v.Start.PlusMinutes(v.Minutes), v.LearnersTime, v.Groups, v.CoTreatment);

    private static Slot Of(VisitLine v) => new(v.Provider, v.Learner, v.Date, v.Start, v.End, v.LearnersTime, v.Groups, v.CoTreatment);
}
