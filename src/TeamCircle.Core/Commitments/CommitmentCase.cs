using NodaTime;
using TeamCircle.Core.Calendar;
using TeamCircle.Core.Cases;
using TeamCircle.Core.Learners;
using TeamCircle.Core.Time;

namespace TeamCircle.Core.Commitments;

/// <summary>A case of kind <c>commitment</c>: everything one judging needs, as a file holds it.</summary>
public sealed record CommitmentCase
{
    /// <summary>The most minutes, probes or sessions that one field may hold.</summary>
    public const int Most = 100_000;

    public required SchoolCalendar Calendar { get; init; }
    public required IReadOnlyList<DateRange> Periods { get; init; }
    public required DateRange Period { get; init; }
    public required DateRange Plan { get; init; }
    public required Promise Promise { get; init; }
    /// <summary>The policy, or where later ones follow the one before them.</summary>
    public required Policy Policy { get; init; }

    /// <summary>Policies that take its place, each from the first day of a period on, oldest first; mostly none.</summary>
    public IReadOnlyList<(int From, Policy Policy)> LaterPolicies { get; init; } = [];
    public required Entry[] Given { get; init; }
    public required Decision[] Decisions { get; init; }
    public required Entry[] Planned { get; init; }

    /// <summary>What sealed periods brought forward; empty where a case says nothing of it.</summary>
    public Debt[] BroughtForward { get; init; } = [];

    /// <summary>The learner's own minutes on other lines, given or planned.</summary>
    public required IReadOnlyList<(int Day, int Amount)> OtherBusy { get; init; }
    public required int AsOf { get; init; }

    /// <summary>The learner's most minutes a day, or null where the learner's day is not used.</summary>
    public required int? DailyLimit { get; init; }

    /// <summary>Reads a case strictly.</summary>
    /// <exception cref="CaseException">A field is missing, unknown, of the wrong kind, or contradicts another.</exception>
    public static CommitmentCase Read(CaseField field)
    {
        field.Only("kind", "calendar", "periods", "period", "plan", "line", "policy", "laterPolicies", "given", "decisions", "planned",
            "broughtForward", "otherBusy", "asOf", "dailyLimit");
        var read = new CommitmentCase
        {
            Calendar = ReadCalendar(field.Get("calendar")),
            Periods = ReadPeriods(field.Get("periods")),
            Period = field.Get("period").Only("start", "end").Dates("start", "end"),
            Plan = field.Get("plan").Only("start", "end").Dates("start", "end"),
            Promise = ReadLine(field.Get("line")),
            Policy = ReadPolicy(field.Get("policy").Only("shortWindow", "surplus", "tolerancePercent", "sessionShare")),
            LaterPolicies = ReadLaterPolicies(field.Find("laterPolicies")),
            Given = [.. field.Get("given").List(ReadEntry)],
            Decisions = [.. field.Get("decisions").List(ReadDecision)],
            Planned = [.. field.Get("planned").List(ReadEntry)],
            BroughtForward = [.. field.Find("broughtForward")?.List(ReadDebt) ?? []],
            OtherBusy = field.Get("otherBusy").List(ReadBusy),
            AsOf = field.Get("asOf").Date(),
            DailyLimit = field.GetOrNull("dailyLimit")?.Number(0, Most),
        };
        read.RefuseBadMakeUps(field);
        return read;
    }

    /// <summary>Works the case out.</summary>
    public Working WorkOut()
    {
        var at = new Judging(Period, AsOf, new Policies(Policy, [.. LaterPolicies]));
        var busy = new BusyDays();
        busy.Clear(Period);
        busy.AddLine(Given, Planned, AsOf);
        foreach (var (day, amount) in OtherBusy)
            busy.Add(day, amount);
        var facts = new LineFacts
        {
            Promise = Promise,
            Windows = Windows(),
            Given = Given,
            Planned = Planned,
            Decisions = Decisions,
            Debts = BroughtForward,
            DailyLimit = DailyLimit,
            Busy = busy,
        };
        return Ledger.Explain(facts, at);
    }

    private PromiseWindows Windows() => new WindowCatalog(Calendar, Periods).Of(Promise, Plan);

    private void RefuseBadMakeUps(CaseField field)
    {
        var windows = Windows();
        foreach (var list in new[] { "given", "planned" })
        {
            field.Get(list).List(item => item.Find("pays") is { } pays && windows.Find(pays.Date()) < 0
                && !Array.Exists(BroughtForward, d => d.IsFromFile && d.Day == pays.Date() && item.Get("date").Date() > d.Since)
                ? throw pays.Wrong("lies in no window of the line with a school day")
                : 0);
        }
    }

    private static SchoolCalendar ReadCalendar(CaseField field)
    {
        field.Only("terms", "weekdays", "weekStart", "closures", "extraDays");
        var terms = field.Get("terms").List(term =>
        {
            var dates = term.Only("firstDay", "lastDay", "kind").Dates("firstDay", "lastDay");
            return new Term(dates.Start, dates.End, ReadTermKind(term.Get("kind")));
        });
        var weekdays = field.Get("weekdays").List(ReadWeekday);
        if (weekdays.Distinct().Count() != weekdays.Count)
            throw field.Get("weekdays").Wrong("names a day twice");
        var closures = field.Get("closures").List(day => new SpecialDay(
            Day.Date(day.Only("date", "kind").Get("date").Date()),
            day.Get("kind").OneOf(("published", ClosureKind.Published), ("unscheduled", ClosureKind.Unscheduled))));
        var extra = field.Get("extraDays").List(day => new SpecialDay(Day.Date(day.Date()), ClosureKind.Extra));
        return new(weekdays, ReadWeekday(field.Get("weekStart")), terms, [.. closures, .. extra]);
    }

    private static TermKind ReadTermKind(CaseField field) =>
        field.OneOf(("regular", TermKind.Regular), ("extended", TermKind.Extended));

    private static IsoDayOfWeek ReadWeekday(CaseField field) => field.OneOf(
        ("Mon", IsoDayOfWeek.Monday), ("Tue", IsoDayOfWeek.Tuesday), ("Wed", IsoDayOfWeek.Wednesday),
        ("Thu", IsoDayOfWeek.Thursday), ("Fri", IsoDayOfWeek.Friday), ("Sat", IsoDayOfWeek.Saturday), ("Sun", IsoDayOfWeek.Sunday));

    private static List<DateRange> ReadPeriods(CaseField field)
    {
        var periods = new List<DateRange>();
        field.List(item =>
        {
            var period = item.Only("start", "end").Dates("start", "end");
            if (periods.Exists(period.Touches))
                throw item.Wrong("overlaps another period");
            periods.Add(period);
            return period;
        });
        return periods;
    }

    private static Promise ReadLine(CaseField field)
    {
        field.Only("every", "from", "to", "versions", "terms", "shortWindow", "wording");
        var every = field.Get("every").Only("unit", "count");
        var unit = every.Get("unit").OneOf(("week", EveryUnit.Week), ("month", EveryUnit.Month),
            ("period", EveryUnit.Period), ("planYear", EveryUnit.PlanYear));
        var count = every.Get("count").Number(1, unit is EveryUnit.Period or EveryUnit.PlanYear ? 1 : 120);
        var dates = field.Dates("from", "to");
        return new(new(unit, count), dates, ReadVersions(field.Get("versions"), dates))
        {
            Terms = ReadTerms(field.Find("terms")),
            ShortWindow = field.Find("shortWindow") is { } rule ? ReadShortWindow(rule) : null,
            Wording = field.Find("wording")?.OneOf<Wording?>(("upTo", Wording.UpTo), ("asNeeded", Wording.AsNeeded)),
        };
    }

    private static PromiseVersion[] ReadVersions(CaseField field, DateRange line)
    {
        var before = Day.None;
        var versions = field.List(item =>
        {
            var from = item.Only("from", "quantity", "sessions").Get("from");
            if (before == Day.None ? from.Date() != line.First : from.Date() <= before)
                throw from.Wrong(before == Day.None ? "must be the line's own from" : "must be later than the version before");
            before = from.Date();
            return new PromiseVersion(before, item.Get("quantity").Number(0, Most), item.Find("sessions")?.Number(1, Most) ?? 0);
        });
        return versions.Count > 0 ? [.. versions] : throw field.Wrong("must hold at least one version");
    }

    private static LineTerms ReadTerms(CaseField? field)
    {
        var kinds = field?.List(ReadTermKind).Distinct().ToList() ?? [TermKind.Regular];
        return kinds.Count switch
        {
            0 => throw field!.Value.Wrong("must name at least one kind of term"),
            1 => kinds[0] == TermKind.Regular ? LineTerms.Regular : LineTerms.Extended,
            _ => LineTerms.Both,
        };
    }

    private static ShortWindow ReadShortWindow(CaseField field) => field.OneOf(
        ("inFull", ShortWindow.InFull), ("prorated", ShortWindow.Prorated), ("atLeastHalf", ShortWindow.AtLeastHalf));

    private static List<(int, Policy)> ReadLaterPolicies(CaseField? field)
    {
        var before = Day.None;
        return field?.List(item =>
        {
            var from = item.Only("from", "shortWindow", "surplus", "tolerancePercent", "sessionShare").Get("from");
            if (from.Date() <= before)
                throw from.Wrong("must be later than the policy before");
            before = from.Date();
            return (before, ReadPolicy(item));
        }) ?? [];
    }

    private static Policy ReadPolicy(CaseField field)
    {
        return new(
            ReadShortWindow(field.Get("shortWindow")),
            field.Get("surplus").OneOf(("eachWindowAlone", Surplus.EachWindowAlone), ("carryWithinPeriod", Surplus.CarryWithinPeriod)),
            field.Get("tolerancePercent").Number(0, 100),
            field.Get("sessionShare").Number(1, 100));
    }

    private static Entry ReadEntry(CaseField field) => new(
        field.Only("date", "amount", "pays").Get("date").Date(), field.Get("amount").Number(0, Most), field.Find("pays")?.Date() ?? Day.None);

    private static Decision ReadDecision(CaseField field) => new(
        field.Only("date", "amount", "sessions", "as").Get("date").Date(),
        field.Get("amount").Number(0, Most),
        field.Find("sessions")?.Number(0, Most) ?? Decision.ByLength,
        field.Get("as").OneOf(("notOwed", DecisionKind.NotOwed), ("makeUp", DecisionKind.MakeUp), ("meeting", DecisionKind.Meeting)));

    private static Debt ReadDebt(CaseField field)
    {
        field.Only("date", "since", "amount", "sessions", "paidBefore", "sessionsPaidBefore", "byFile");
        int Number(string name) => field.Find(name)?.Number(0, Most) ?? 0;
        var paid = new DebtAmount(Number("paidBefore"), Number("sessionsPaidBefore"));
        return new(field.Get("date").Date(), field.Get("since").Date(), new DebtAmount(field.Get("amount").Number(0, Most), Number("sessions")).Plus(paid), paid, default)
        {
            IsFromFile = field.Find("byFile")?.Flag() ?? false,
        };
    }

    private static (int Day, int Amount) ReadBusy(CaseField field) =>
        (field.Only("date", "amount").Get("date").Date(), field.Get("amount").Number(0, Most));
}
