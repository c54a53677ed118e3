using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Metadata;
using TeamCircle.Data.Calendar;
using TeamCircle.Data.Closing;
using TeamCircle.Data.Commitments;
using TeamCircle.Data.Devices;
using TeamCircle.Data.Disputes;
using TeamCircle.Data.Family;
using TeamCircle.Data.History;
using TeamCircle.Data.Import;
using TeamCircle.Data.Jobs;
using TeamCircle.Data.Learners;
using TeamCircle.Data.Mail;
using TeamCircle.Data.Monitoring;
using TeamCircle.Data.Moves;
using TeamCircle.Data.Papers;
using TeamCircle.Data.People;
using TeamCircle.Data.Practice;
using TeamCircle.Data.Progress;
using TeamCircle.Data.Quiet;
using TeamCircle.Data.Reports;
using TeamCircle.Data.Retention;
using TeamCircle.Data.Rights;
using TeamCircle.Data.Road;
using TeamCircle.Data.Routines;
using TeamCircle.Data.Sessions;
using TeamCircle.Data.Things;

namespace TeamCircle.Data;

/// <summary>All rows of the agencies. Reach it through <see cref="Portal"/>, which sets who acts and what they may see.</summary>
public sealed class PortalDb(DbContextOptions<PortalDb> options) : DbContext(options)
{
    public const string Schema = "portal";

    public DbSet<AgencyRow> Agencies => Set<AgencyRow>();
    public DbSet<PersonRow> People => Set<PersonRow>();
    public DbSet<PersonRoleRow> PersonRoles => Set<PersonRoleRow>();
    public DbSet<PersonDisciplineRow> PersonDisciplines => Set<PersonDisciplineRow>();
    public DbSet<RelationRow> Relations => Set<RelationRow>();
    public DbSet<SupervisionRow> Supervisions => Set<SupervisionRow>();
    public DbSet<ObservationRow> Observations => Set<ObservationRow>();
    public DbSet<ReadFirstRow> ReadFirsts => Set<ReadFirstRow>();
    public DbSet<LearnerRow> Learners => Set<LearnerRow>();
    public DbSet<LearnerNameRow> LearnerNames => Set<LearnerNameRow>();
    public DbSet<PersonNameRow> PersonNames => Set<PersonNameRow>();
    public DbSet<BirthRow> Births => Set<BirthRow>();
    public DbSet<PlanRow> Plans => Set<PlanRow>();
    public DbSet<AcknowledgmentRow> Acknowledgments => Set<AcknowledgmentRow>();
    public DbSet<TeachPartRow> TeachParts => Set<TeachPartRow>();
    public DbSet<ServiceRow> Services => Set<ServiceRow>();
    public DbSet<ServiceVersionRow> ServiceVersions => Set<ServiceVersionRow>();
    public DbSet<AssignmentRow> Assignments => Set<AssignmentRow>();
    public DbSet<BalanceRow> Balances => Set<BalanceRow>();
    public DbSet<DebtRow> Debts => Set<DebtRow>();
    public DbSet<DebtDecisionRow> DebtDecisions => Set<DebtDecisionRow>();
    public DbSet<AwardRow> Awards => Set<AwardRow>();
    public DbSet<GoalRow> Goals => Set<GoalRow>();
    public DbSet<ProbeCommitmentRow> ProbeCommitments => Set<ProbeCommitmentRow>();
    public DbSet<GoalOwnerRow> GoalOwners => Set<GoalOwnerRow>();
    public DbSet<ObjectiveRow> Objectives => Set<ObjectiveRow>();
    public DbSet<GoalChangeRow> GoalChanges => Set<GoalChangeRow>();
    public DbSet<TermRow> Terms => Set<TermRow>();
    public DbSet<ClosureRow> Closures => Set<ClosureRow>();
    public DbSet<PeriodRow> Periods => Set<PeriodRow>();
    public DbSet<PolicyRow> Policies => Set<PolicyRow>();
    public DbSet<VisitRow> Visits => Set<VisitRow>();
    public DbSet<VisitGoalRow> VisitGoals => Set<VisitGoalRow>();
    public DbSet<HandedOverRow> HandedOver => Set<HandedOverRow>();
    public DbSet<SeriesRow> Series => Set<SeriesRow>();
    public DbSet<AwayRow> Aways => Set<AwayRow>();
    public DbSet<PlaceRow> Places => Set<PlaceRow>();
    public DbSet<LearnerPlaceRow> LearnerPlaces => Set<LearnerPlaceRow>();
    public DbSet<TravelTimeRow> TravelTimes => Set<TravelTimeRow>();
    public DbSet<PlaceAddressRow> PlaceAddresses => Set<PlaceAddressRow>();
    public DbSet<RoadStartRow> RoadStarts => Set<RoadStartRow>();
    public DbSet<WorkingHoursRow> WorkingHours => Set<WorkingHoursRow>();
    public DbSet<OpenHoursRow> OpenHours => Set<OpenHoursRow>();
    public DbSet<RoutineRow> Routines => Set<RoutineRow>();
    public DbSet<RoutineVersionRow> RoutineVersions => Set<RoutineVersionRow>();
    public DbSet<RoutineReviewRow> RoutineReviews => Set<RoutineReviewRow>();
    public DbSet<RoutinePictureRow> RoutinePictures => Set<RoutinePictureRow>();
    public DbSet<HoldRow> Holds => Set<HoldRow>();
    public DbSet<CautionsSeenRow> CautionsSeen => Set<CautionsSeenRow>();
    public DbSet<VisitRoutineRow> VisitRoutines => Set<VisitRoutineRow>();
    public DbSet<SeriesRoutineRow> SeriesRoutines => Set<SeriesRoutineRow>();
    public DbSet<HomePracticeRow> HomePractice => Set<HomePracticeRow>();
    public DbSet<PracticeRow> Practices => Set<PracticeRow>();
    public DbSet<TrialRow> Trials => Set<TrialRow>();
    public DbSet<ThingRow> Things => Set<ThingRow>();
    public DbSet<ThingEventRow> ThingEvents => Set<ThingEventRow>();
    public DbSet<HomeLogRow> HomeLogs => Set<HomeLogRow>();
    public DbSet<SessionRow> Sessions => Set<SessionRow>();
    public DbSet<ProbeRow> Probes => Set<ProbeRow>();
    public DbSet<ReportRow> Reports => Set<ReportRow>();
    public DbSet<ReportGoalRow> ReportGoals => Set<ReportGoalRow>();
    public DbSet<ReportPartRow> ReportParts => Set<ReportPartRow>();
    public DbSet<ReportSignatureRow> ReportSignatures => Set<ReportSignatureRow>();
    public DbSet<FamilyRemarkRow> FamilyRemarks => Set<FamilyRemarkRow>();
    public DbSet<FamilySummaryRow> FamilySummaries => Set<FamilySummaryRow>();
    public DbSet<RecordRequestRow> RecordRequests => Set<RecordRequestRow>();
    public DbSet<ParentStatementRow> ParentStatements => Set<ParentStatementRow>();
    public DbSet<BoundDateRow> BoundDates => Set<BoundDateRow>();
    public DbSet<DeliveryRow> Deliveries => Set<DeliveryRow>();
    public DbSet<LicenceRow> Licences => Set<LicenceRow>();
    public DbSet<MeetingRow> Meetings => Set<MeetingRow>();
    public DbSet<ExtendedYearRow> ExtendedYears => Set<ExtendedYearRow>();
    public DbSet<DecisionRow> Decisions => Set<DecisionRow>();
    public DbSet<RecordHoldRow> RecordHolds => Set<RecordHoldRow>();
    public DbSet<RetentionRuleRow> RetentionRules => Set<RetentionRuleRow>();
    public DbSet<DestructionRow> Destructions => Set<DestructionRow>();
    public DbSet<LastDayRow> LastDays => Set<LastDayRow>();
    public DbSet<LearnerHandOverRow> LearnerHandOvers => Set<LearnerHandOverRow>();
    public DbSet<FiledItemRow> FiledItems => Set<FiledItemRow>();
    public DbSet<MoveInRow> MovesIn => Set<MoveInRow>();
    public DbSet<MoveInServiceRow> MoveInServices => Set<MoveInServiceRow>();
    public DbSet<AskedRecordRow> AskedRecords => Set<AskedRecordRow>();
    public DbSet<MoveOutRow> MovesOut => Set<MoveOutRow>();
    public DbSet<TransferFileRow> TransferFiles => Set<TransferFileRow>();
    public DbSet<SampleRow> Samples => Set<SampleRow>();
    public DbSet<SampleFileRow> SampleFiles => Set<SampleFileRow>();
    public DbSet<SampleAnswerRow> SampleAnswers => Set<SampleAnswerRow>();
    public DbSet<LearnerPeriodRow> LearnerPeriods => Set<LearnerPeriodRow>();
    public DbSet<StatementRow> Statements => Set<StatementRow>();
    public DbSet<SealedLineRow> SealedLines => Set<SealedLineRow>();
    public DbSet<ReopeningRow> Reopenings => Set<ReopeningRow>();
    public DbSet<ChangeRow> Changes => Set<ChangeRow>();
    public DbSet<BlockRow> Blocks => Set<BlockRow>();
    public DbSet<AccessRow> Accesses => Set<AccessRow>();
    public DbSet<OperationRow> Operations => Set<OperationRow>();
    public DbSet<DeviceRow> Devices => Set<DeviceRow>();
    public DbSet<SetAsideRow> SetAsides => Set<SetAsideRow>();
    public DbSet<ImportRow> Imports => Set<ImportRow>();
    public DbSet<ImportAdditionRow> ImportAdditions => Set<ImportAdditionRow>();
    public DbSet<OutboxRow> Outbox => Set<OutboxRow>();
    public DbSet<MailChoiceRow> MailChoices => Set<MailChoiceRow>();
    public DbSet<QuietRow> Quiets => Set<QuietRow>();
    public DbSet<JobRunRow> JobRuns => Set<JobRunRow>();

    /// <summary>Says on which version an edit began: saving it is refused where somebody saved another one meanwhile.</summary>
    public void BeganOn(IVersionedRow row, int version) => Entry(row).Property(nameof(IVersionedRow.Version)).OriginalValue = version;

    /// <summary>The same for a row of which only parts kept in other tables change: its version is raised all the same.</summary>
    public void Touch(IVersionedRow row, int version)
    {
        BeganOn(row, version);
        Entry(row).State = EntityState.Modified;
    }

    protected override void ConfigureConventions(ModelConfigurationBuilder configuration)
    {
        // Codes are stored by their names: a change row is read by people, and a renamed code must not shift others.
        // An index on every foreign key would double what a saved visit writes; the ones that reads need are named in PortalMap.
        configuration.Conventions.Remove<Microsoft.EntityFrameworkCore.Metadata.Conventions.ForeignKeyIndexConvention>();
        configuration.Properties<Enum>().HaveConversion<string>().HaveMaxLength(40);
    }

    protected override void OnModelCreating(ModelBuilder model)
    {
        model.HasDefaultSchema(Schema);
        PortalMap.Keys(model);
        PortalMap.Details(model);
        foreach (var type in model.Model.GetEntityTypes())
            PortalMap.Conventions(model, type);
    }
}
