using TeamCircle.Core.Closing;
using TeamCircle.Core.Commitments;
using TeamCircle.Core.Learners;
using TeamCircle.Core.Time;
using TeamCircle.Data.Learners;

namespace TeamCircle.Data.Closing;

/// <summary>
/// What one window of a line still lacked when its period was sealed; or what an agency that starts in mid-year brought along.
/// One row a window: a restatement sets it right, and the statements keep what each of them sealed.
/// </summary>
public sealed class DebtRow : ILearnerRow, IVersionedRow
{
    public int AgencyId { get; set; }
    public int Id { get; set; }
    public int LearnerId { get; set; }

    /// <summary>Exactly one of <see cref="ServiceId"/> and <see cref="GoalId"/> is set.</summary>
    public int? ServiceId { get; set; }
    public int? GoalId { get; set; }

    /// <summary>For probes asked of each owner: the owner.</summary>
    public int? OwnerId { get; set; }

    /// <summary>The sealed period; null for one brought by file.</summary>
    public int? PeriodId { get; set; }

    /// <summary>The day on which the window closed; by file the day before it was brought. Make-ups name it, or another day of the window.</summary>
    public LocalDate OnDay { get; set; }

    /// <summary>The last day of the sealed period: make-ups dated later pay it.</summary>
    public LocalDate Since { get; set; }
    public int MakeUp { get; set; }
    public int MakeUpSessions { get; set; }
    public int Meeting { get; set; }
    public int MeetingSessions { get; set; }
    public int Undecided { get; set; }
    public int UndecidedSessions { get; set; }

    /// <summary>By when what is to be made up was to be made up, as it was sealed.</summary>
    public LocalDate? ByDay { get; set; }

    /// <summary>What make-ups dated after the period's end had paid before it was sealed.</summary>
    public int PaidBefore { get; set; }
    public int PaidBeforeSessions { get; set; }

    /// <summary>False where nothing lacks after a restatement, or while the count is open again.</summary>
    public bool Live { get; set; } = true;
    public Instant RecordedAt { get; set; }
    public int Version { get; set; }

    /// <summary>The debt as its account begins with it.</summary>
    public OpenedDebt Opened => new(
        OnDay, new(MakeUp, MakeUpSessions), new(Meeting, MeetingSessions), new(Undecided, UndecidedSessions), ByDay, new(PaidBefore, PaidBeforeSessions));

    /// <summary>The debt as the ledger counts make-ups against it.</summary>
    /// <param name="notOwed">What was decided later not owed.</param>
    public Debt ForLedger(DebtAmount notOwed) =>
        new(Day.Of(OnDay), Day.Of(Since), Opened.Amount.Plus(Opened.PaidBefore), Opened.PaidBefore, notOwed) { IsFromFile = PeriodId is null };

    public void Take(OpenedDebt debt)
    {
        (MakeUp, MakeUpSessions) = (debt.MakeUp.Minutes, debt.MakeUp.Sessions);
        (Meeting, MeetingSessions) = (debt.Meeting.Minutes, debt.Meeting.Sessions);
        (Undecided, UndecidedSessions) = (debt.Undecided.Minutes, debt.Undecided.Sessions);
        (PaidBefore, PaidBeforeSessions) = (debt.PaidBefore.Minutes, debt.PaidBefore.Sessions);
        (ByDay, Live) = (debt.By, true);
    }
}

/// <summary>What people decided about a debt after the closing. Taken back by <see cref="Live"/>, never deleted.</summary>
public sealed class DebtDecisionRow : ILearnerRow
{
    public int AgencyId { get; set; }
    public int Id { get; set; }
    public int LearnerId { get; set; }
    public int DebtId { get; set; }

    /// <summary>Minutes for a service, probes for a goal.</summary>
    public int Amount { get; set; }
    public int Sessions { get; set; }
    public DecisionKind Kind { get; set; }
    public LocalDate DecidedOn { get; set; }

    /// <summary>Who took part, at least one person of the agency.</summary>
    public int[] DecidedBy { get; set; } = [];
    public string? OthersPresent { get; set; }
    public LocalDate? FamilyToldOn { get; set; }

    /// <summary>For a make-up: by when.</summary>
    public LocalDate? ByDay { get; set; }
    public required string Note { get; set; }
    public bool Live { get; set; } = true;
    public string? TakenBackReason { get; set; }
    public int RecordedBy { get; set; }
    public Instant RecordedAt { get; set; }

    public DebtDecision Decision => new(DecidedOn, new(Amount, Sessions), Kind, ByDay, Id);
}

/// <summary>
/// Compensatory services: an award from outside the count. It is never computed from minutes missed and never pays for the
/// current promise; visits that name it count in its own balance alone.
/// </summary>
public sealed class AwardRow : ILearnerRow, IVersionedRow
{
    public int AgencyId { get; set; }
    public int Id { get; set; }
    public int LearnerId { get; set; }
    public AwardSource Source { get; set; }

    /// <summary>The paper it stands in, and where.</summary>
    public required string Paper { get; set; }

    /// <summary>Minutes or sessions.</summary>
    public int Amount { get; set; }
    public AwardUnit Unit { get; set; }

    /// <summary>The services by which it is given: all of this discipline, or the one of <see cref="ServiceId"/>.</summary>
    public Discipline Discipline { get; set; }
    public int? ServiceId { get; set; }

    /// <summary>Who may give it, where the paper says so; empty: whoever may give the service.</summary>
    public int[] MayGive { get; set; } = [];
    public LocalDate FromDay { get; set; }

    /// <summary>Null where the paper names no last day.</summary>
    public LocalDate? UntilDay { get; set; }

    /// <summary>Whether visits of a service can be for it.</summary>
    public bool IsGivenBy(ServiceRow service) => service.LearnerId == LearnerId && (ServiceId is { } own ? service.Id == own : service.Discipline == Discipline);

    /// <summary>Whether an agency that starts in mid-year brought it by file.</summary>
    public bool FromFile { get; set; }
    public bool Live { get; set; } = true;
    public string? TakenBackReason { get; set; }
    public int RecordedBy { get; set; }
    public Instant RecordedAt { get; set; }
    public int Version { get; set; }
}
