using TeamCircle.Core.Commitments;

namespace TeamCircle.Data.Commitments;

/// <summary>What a person should look at, because it counts for nothing or was not as promised.</summary>
public enum CheckKind
{
    /// <summary>Visits that count nowhere: outside the dates, or in a window without a school day.</summary>
    OutsideTheDates,

    /// <summary>Make-up visits for a day in no window.</summary>
    NamesNoWindow,

    /// <summary>Decisions that name no window.</summary>
    IgnoredDecision,

    /// <summary>Visits planned before the as-of day and never logged.</summary>
    NeverLogged,

    /// <summary>Given by somebody who was not named for it that day.</summary>
    ByOther,

    /// <summary>Given at another place than promised.</summary>
    OtherPlace,

    /// <summary>Given in a group where individual was promised, or the other way round.</summary>
    OtherFormat,

    /// <summary>A wording that promises no amount.</summary>
    CannotJudge,

    /// <summary>A part of the plan year lies beyond the calendar: expected, not known.</summary>
    YearBeyondCalendar,

    /// <summary>Windows that close in no reporting period.</summary>
    ClosesInNoPeriod,
}

/// <summary>Something to check about one line.</summary>
/// <param name="Line">Its place in <see cref="Audit.Lines"/>.</param>
/// <param name="Count">How many visits, decisions or windows.</param>
public readonly record struct LineCheck(int Line, CheckKind Kind, int Count);

/// <summary>Rows of one import that were refused.</summary>
public sealed record RefusedRows(Instant At, int Rows);

/// <summary>Everything to check in an audit.</summary>
/// <param name="Lines">About lines, by kind and then in the order of the lines.</param>
/// <param name="Refused">Imports that left rows out, the last one first.</param>
/// <param name="SetAside">How many things that devices sent wait for a person.</param>
public sealed record AuditChecks(IReadOnlyList<LineCheck> Lines, IReadOnlyList<RefusedRows> Refused, int SetAside)
{
    /// <summary>Learners who are away without an end, for longer than the agency set: the team should meet.</summary>
    public IReadOnlyList<Calendar.OpenAway> Away { get; init; } = [];

    /// <summary>Visits of the period that stand where the calendar changed under them, or too close to the one before.</summary>
    public Calendar.VisitChecks Visits { get; init; } = Calendar.VisitChecks.None;

    public bool IsEmpty => Lines.Count == 0 && Refused.Count == 0 && SetAside == 0 && Away.Count == 0 && Visits.IsEmpty;

    /// <summary>What the ledger found to check about the lines, and what was given otherwise than promised.</summary>
    internal static IReadOnlyList<LineCheck> Of(IReadOnlyList<AuditLine> lines, IEnumerable<LineCheck> otherwise)
    {
        var checks = new List<LineCheck>(otherwise);
        for (var i = 0; i < lines.Count; i++)
        {
            var toCheck = lines[i].Balance.ToCheck;
            if (lines[i].Balance.Status == Status.CannotJudge)
                checks.Add(new(i, CheckKind.CannotJudge, 1));
            if (toCheck.IsEmpty)
                continue;
            Add(i, CheckKind.OutsideTheDates, toCheck.Outside);
            Add(i, CheckKind.NamesNoWindow, toCheck.NamesNoWindow);
            Add(i, CheckKind.IgnoredDecision, toCheck.IgnoredDecisions);
            Add(i, CheckKind.NeverLogged, toCheck.NeverLogged);
            Add(i, CheckKind.YearBeyondCalendar, toCheck.YearBeyondCalendar ? 1 : 0);
            Add(i, CheckKind.ClosesInNoPeriod, toCheck.ClosingInNoPeriod);
        }
        checks.Sort((x, y) => (x.Kind, x.Line).CompareTo((y.Kind, y.Line)));
        return checks;

        void Add(int line, CheckKind kind, int count)
        {
            if (count > 0)
                checks.Add(new(line, kind, count));
        }
    }
}
