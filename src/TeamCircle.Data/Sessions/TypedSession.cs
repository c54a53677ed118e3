using System.ComponentModel.DataAnnotations;
using TeamCircle.Core;
using TeamCircle.Core.Learners;
using TeamCircle.Core.Practice;
using TeamCircle.Core.Sessions;
using TeamCircle.Core.Time;

namespace TeamCircle.Data.Sessions;

/// <summary>What a person may type about one visit. Times stay text until they are read, so that nothing typed is lost.</summary>
public abstract record TypedSession
{
    [EnumDataType(typeof(VisitOutcome))]
    public VisitOutcome Outcome { get; init; } = VisitOutcome.Given;

    /// <summary>Null: the day that was planned, or that stood before.</summary>
    public LocalDate? OnDay { get; init; }

    /// <summary>Empty: the time that was planned, or that stood before.</summary>
    [StringLength(12)]
    public string? Start { get; init; }

    /// <inheritdoc cref="Start"/>
    [StringLength(12)]
    public string? End { get; init; }
    public int? NotCounted { get; init; }

    [EnumDataType(typeof(Reason))]
    public Reason? Reason { get; init; }
    public LocalDate? PaysOn { get; init; }

    /// <summary>The award of compensatory services that it is for. A visit that was scheduled for one stays so, whatever is typed.</summary>
    public int? AwardId { get; init; }

    /// <summary>Null: as the service promises.</summary>
    [EnumDataType(typeof(Place))]
    public Place? Place { get; init; }

    /// <inheritdoc cref="Place"/>
    [EnumDataType(typeof(SessionFormat))]
    public SessionFormat? Format { get; init; }
    public int? PartnerId { get; init; }
    public int? SharedMinutes { get; init; }
    public bool Led { get; init; } = true;

    [StringLength(4000)]
    public string? Practised { get; init; }

    /// <summary>Routines that were practised; of a group session, those of each learner.</summary>
    public int[] Routines { get; init; } = [];

    /// <summary>What filled the hour beside practice; null where nobody said.</summary>
    public TypedFilling[]? Filled { get; init; }

    [StringLength(1000)]
    public string? Present { get; init; }

    [StringLength(4000)]
    public string? Note { get; init; }

    /// <summary>Of what was typed about the hour, what lasted some minutes.</summary>
    internal Filled[] FilledHour => [.. (Filled ?? []).Where(f => f.Minutes is not (null or 0)).Select(f => new Filled(f.Kind, f.Minutes!.Value))];

    /// <summary>The entry, or what about its day and times cannot be read.</summary>
    /// <param name="before">What stands where nothing is typed; null where nothing does.</param>
    internal Outcome<SessionEntry> Read(TimesBefore? before, Place place, SessionFormat format)
    {
        var start = string.IsNullOrWhiteSpace(Start) ? before?.Start : TypedTime.Read(Start);
        var end = EndOf(start, before);
        if (start is { } from && end is { } to && (OnDay ?? before?.OnDay) is { } day)
            return Outcome<SessionEntry>.Of(Entry(day, from, to, place, format));
        var problems = new List<Problem>();
        if ((OnDay ?? before?.OnDay) is null)
            problems.Add(new(nameof(OnDay), "Say on which day it was."));
        if (start is null)
            problems.Add(new(nameof(Start), string.IsNullOrWhiteSpace(Start) ? "Type when it started, for example 9:05." : NoTime));
        if (end is null)
            problems.Add(new(nameof(End), string.IsNullOrWhiteSpace(End) ? "Type when it ended, for example 9:45." : NoTime));
        return Outcome<SessionEntry>.Refused(problems);
    }

    /// <summary>Whether somebody typed or measured the times: an end left empty comes from the plan, unchanged times stay what they were.</summary>
    internal bool Observed(TimesBefore? before, SessionEntry entry) => before switch
    {
        null => true,
        { AreOfSession: true } b => b.Observed || (entry.Start, entry.End) != (b.Start, b.End),
        _ => !string.IsNullOrWhiteSpace(End),
    };

    private const string NoTime = "This is no time of day. Type it like 9:05 or 3:10 pm.";

    // A start that was typed otherwise than planned says nothing about the end: it has to be typed too.
    private LocalTime? EndOf(LocalTime? start, TimesBefore? before) =>
        !string.IsNullOrWhiteSpace(End) ? (start is { } from ? TypedTime.ReadEnd(End, from) : TypedTime.Read(End))
        : before is { } b && (start == b.Start || Outcome == VisitOutcome.NotOffered) ? b.End
        : null;

    private SessionEntry Entry(LocalDate day, LocalTime start, LocalTime end, Place place, SessionFormat format) => new()
    {
        Outcome = Outcome,
        OnDay = day,
        Start = start,
        End = end,
        NotCounted = NotCounted ?? 0,
        Reason = Reason,
        PaysOn = PaysOn,
        Place = Place ?? place,
        Format = Format ?? format,
        WithPartner = PartnerId is not null,
        SharedMinutes = SharedMinutes,
        Led = Led,
    };
}

/// <param name="Minutes">Null and 0 say the same: it took none.</param>
public sealed record TypedFilling(FilledKind Kind = FilledKind.WarmUp, int? Minutes = null);

/// <summary>Day and times that stand before somebody types others.</summary>
/// <param name="Observed">False where they come from the plan.</param>
/// <param name="AreOfSession">True where they come from a session on record, false where from the plan.</param>
internal readonly record struct TimesBefore(LocalDate OnDay, LocalTime Start, LocalTime End, bool Observed, bool AreOfSession)
{
    public static TimesBefore Planned(Calendar.VisitRow visit) =>
        new(visit.OnDay, visit.StartTime, visit.StartTime.PlusMinutes(visit.Minutes), false, false);

    public static TimesBefore Of(SessionRow session) =>
        new(session.OnDay, session.StartTime, session.EndTime, session.Observed, true);
}
