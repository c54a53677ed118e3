using Google.OrTools.Sat;
using Google.OrTools.Util;

namespace TeamCircle.Core.MakeUps;

/// <summary>The unknowns of one slot: whether there is a visit, from when to when.</summary>
internal sealed class SlotVariables
{
    private readonly BoolVar[] _gaps = [];

    public SlotVariables(CpModel model, Slot slot)
    {
        Slot = slot;
        On = model.NewBoolVar("");
        Start = model.NewIntVarFromDomain(Domain.FromIntervals([.. slot.Gaps.Select(g => new long[] { g.Start, g.End - slot.Least })]), "");
        End = model.NewIntVarFromDomain(Domain.FromIntervals([.. slot.Gaps.Select(g => new long[] { g.Start + slot.Least, g.End })]), "");
        Length = model.NewIntVarFromDomain(Domain.FromIntervals([[0, 0], [slot.Least, slot.Most]]), "");
        model.Add(Length >= LinearExpr.Term(On, slot.Least));
        model.Add(Length <= LinearExpr.Term(On, slot.Most));
        Interval = model.NewOptionalIntervalVar(Start, Length, End, On, "");
        if (slot.Gaps.Count == 1)
            return;
        _gaps = [.. slot.Gaps.Select(_ => model.NewBoolVar(""))];
        model.Add(LinearExpr.Sum(_gaps) == On);
        for (var i = 0; i < _gaps.Length; i++)
        {
            model.Add(Start >= slot.Gaps[i].Start).OnlyEnforceIf(_gaps[i]);
            model.Add(End <= slot.Gaps[i].End).OnlyEnforceIf(_gaps[i]);
        }
    }

    public Slot Slot { get; }

    public BoolVar On { get; }

    public IntVar Start { get; }

    public IntVar End { get; }

    /// <summary>Zero where there is no visit.</summary>
    public IntVar Length { get; }

    public IntervalVar Interval { get; }

    /// <summary>Says where the last plan had it, for every unknown: a hint with holes is often lost.</summary>
    public void Hint(CpModel model, Placed? placed)
    {
        model.AddHint(On, placed is not null);
        model.AddHint(Start, placed?.Start ?? Slot.FirstStart);
        model.AddHint(Length, placed?.Length ?? 0);
        model.AddHint(End, placed?.End ?? Slot.FirstStart + Slot.Least);
        var isOpen = placed is not null;
        for (var i = 0; i < _gaps.Length; i++)
        {
            var holds = isOpen && Slot.Gaps[i].Start <= placed!.Value.Start && placed.Value.End <= Slot.Gaps[i].End;
            model.AddHint(_gaps[i], holds);
            isOpen = isOpen && !holds;
        }
    }
}
