using NodaTime;

namespace TeamCircle.Core.Things;

/// <summary>One entry about a thing.</summary>
/// <param name="Order">Of two entries of one day the one with the greater number came later.</param>
/// <param name="Words">What happened, or what the loaner is; null where nothing was said.</param>
/// <param name="Meanwhile">What to do while it is out of order.</param>
/// <param name="Where">Where it is from then on; null where it did not move.</param>
public sealed record ThingDay(int Order, LocalDate On, ThingAct Act, string? Words = null, string? Meanwhile = null, ThingPlace? Where = null);

/// <summary>A stretch in which a thing was out of order.</summary>
/// <param name="From">The day on which it broke.</param>
/// <param name="Until">The last day without it: the day before the one on which it worked again, or <paramref name="From"/> where that was the same day. Null while
/// it lasts.</param>
public sealed record Outage(LocalDate From, LocalDate? Until, string Happened, string? Meanwhile)
{
    public bool Holds(LocalDate day) => From <= day && (Until is null || day <= Until);
}

/// <summary>Another one that stands in; both days belong to it, and no last day means that it is still here.</summary>
public sealed record Loaner(LocalDate From, LocalDate? Until, string What);

/// <summary>What became of a thing, from the entries about it (docs/rules.md, part 19).</summary>
/// <remarks>The entries follow each other: each must be one of <see cref="Next"/> after those before it. What does not follow is passed over, so that an
/// entry taken back leaves the others readable.</remarks>
public sealed class ThingStory
{
    private readonly List<Outage> _outages = [];
    private readonly List<Loaner> _loaners = [];

    private ThingStory()
    {
    }

    public ThingState State { get; private set; } = ThingState.Promised;

    /// <summary>The first day on which it was there; null while nobody has it. A thing that was given back and came again began anew.</summary>
    public LocalDate? InPlaceSince { get; private set; }

    /// <summary>Null where nobody said, or where it is not there.</summary>
    public ThingPlace? Where { get; private set; }

    public LocalDate? ReturnedOn { get; private set; }

    /// <summary>The day of the last entry; null before the first.</summary>
    public LocalDate? LastOn { get; private set; }

    /// <summary>Oldest first.</summary>
    public IReadOnlyList<Outage> Outages => _outages;

    /// <summary>Oldest first.</summary>
    public IReadOnlyList<Loaner> Loaners => _loaners;

    /// <summary>The outage that lasts; null where it works.</summary>
    public Outage? Out => State == ThingState.OutOfOrder ? _outages[^1] : null;

    /// <summary>The loaner that is here; null where there is none.</summary>
    public Loaner? Loaner => _loaners is [.., { Until: null } last] ? last : null;

    /// <summary>What can be noted next.</summary>
    public IReadOnlyList<ThingAct> Next => State switch
    {
        ThingState.Promised or ThingState.Returned => [ThingAct.InPlace, .. OfLoaner],
        ThingState.OutOfOrder => [ThingAct.Works, .. OfLoaner, ThingAct.Moved, ThingAct.Returned],
        _ => Loaner is null ? [ThingAct.Broken, ThingAct.Moved, ThingAct.Returned] : [ThingAct.LoanerBack, ThingAct.Broken, ThingAct.Moved, ThingAct.Returned],
    };

    private ThingAct[] OfLoaner => [Loaner is null ? ThingAct.LoanerHere : ThingAct.LoanerBack];

    /// <param name="entries">In any order.</param>
    public static ThingStory Of(IEnumerable<ThingDay> entries)
    {
        var story = new ThingStory();
        foreach (var entry in entries.OrderBy(e => e.On).ThenBy(e => e.Order))
        {
            if (story.Next.Contains(entry.Act))
                story.Take(entry);
        }
        return story;
    }

    private void Take(ThingDay entry)
    {
        LastOn = entry.On;
        switch (entry.Act)
        {
            case ThingAct.InPlace:
                (State, InPlaceSince, Where, ReturnedOn) = (ThingState.InPlace, entry.On, entry.Where, null);
                break;
            case ThingAct.Broken:
                (State, Where) = (ThingState.OutOfOrder, entry.Where ?? Where);
                _outages.Add(new(entry.On, null, entry.Words ?? "", entry.Meanwhile));
                break;
            case ThingAct.Works:
                EndOutage(entry.On);
                (State, Where) = (ThingState.InPlace, entry.Where ?? Where);
                break;
            case ThingAct.LoanerHere:
                _loaners.Add(new(entry.On, null, entry.Words ?? ""));
                break;
            case ThingAct.LoanerBack:
                _loaners[^1] = _loaners[^1] with { Until = entry.On };
                break;
            case ThingAct.Moved:
                Where = entry.Where;
                break;
            default:
                EndOutage(entry.On);
                (State, InPlaceSince, Where, ReturnedOn) = (ThingState.Returned, null, null, entry.On);
                break;
        }
    }

    private void EndOutage(LocalDate worksOn)
    {
        if (State == ThingState.OutOfOrder)
            _outages[^1] = _outages[^1] with { Until = LocalDate.Max(_outages[^1].From, worksOn.PlusDays(-1)) };
    }
}
