using System.Linq.Expressions;
using System.Text.Json;
using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.ChangeTracking;
using Microsoft.EntityFrameworkCore.Metadata;
using TeamCircle.Core;
using TeamCircle.Core.Learners;
using TeamCircle.Core.People;
using TeamCircle.Core.Practice;
using TeamCircle.Core.Progress;
using TeamCircle.Data.Calendar;
using TeamCircle.Data.Closing;
using TeamCircle.Data.Commitments;
using TeamCircle.Data.Devices;
using TeamCircle.Data.Disputes;
using TeamCircle.Data.Family;
using TeamCircle.Data.History;
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

/// <summary>How rows lie in tables. One convention for the keys (agency first), then what differs.</summary>
/// <remarks>What EF cannot say (exclusion constraints, policies, triggers, covering indexes) stands in Migrations/Sql.</remarks>
internal static class PortalMap
{
    /// <summary>Keys that are not (agency, id).</summary>
    public static void Keys(ModelBuilder model)
    {
        model.Entity<AgencyRow>(t => { t.HasKey(r => r.Id); t.HasIndex(r => r.Code).IsUnique(); t.Property(r => r.AwayMeetingDays).HasDefaultValue(10); t.Property(r => r.ReviewMonths).HasDefaultValue(Core.Routines.ReviewRules.UsualMonths); t.Property(r => r.HoldContactHours).HasDefaultValue(Core.Routines.HoldRules.UsualContactHours); t.Property(r => r.FamilyTells).HasDefaultValue(false); t.Property(r => r.HomeTaps).HasDefaultValue(false); t.Property(r => r.DistanceUnit).HasDefaultValue(Core.Road.DistanceUnit.Mile); t.Property(r => r.MajorityAge).HasDefaultValue(ComingOfAge.UsualYears); t.Property(r => r.MajorityPauses).HasDefaultValue(true).HasSentinel(true); });
        model.Entity<VisitGoalRow>().HasKey(r => new { r.AgencyId, r.VisitId, r.GoalId });
        model.Entity<HandedOverRow>().HasKey(r => new { r.AgencyId, r.VisitId, r.PersonId });
        model.Entity<LearnerPeriodRow>().HasKey(r => new { r.AgencyId, r.LearnerId, r.PeriodId });
        model.Entity<OperationRow>().HasKey(r => new { r.AgencyId, r.PersonId, r.Id });
        // The learner in these keys lets a foreign key prove that a session, probe or decision stays with one learner.
        model.Entity<ServiceRow>().HasAlternateKey(r => new { r.AgencyId, r.LearnerId, r.Id });
        model.Entity<GoalRow>().HasAlternateKey(r => new { r.AgencyId, r.LearnerId, r.Id });
        model.Entity<VisitRow>().HasAlternateKey(r => new { r.AgencyId, r.LearnerId, r.Id });
        model.Entity<PlanRow>().HasAlternateKey(r => new { r.AgencyId, r.LearnerId, r.Id });
        model.Entity<SeriesRow>().HasAlternateKey(r => new { r.AgencyId, r.LearnerId, r.Id });
        model.Entity<AwayRow>().HasAlternateKey(r => new { r.AgencyId, r.LearnerId, r.Id });
        model.Entity<RoutineRow>().HasAlternateKey(r => new { r.AgencyId, r.LearnerId, r.Id });
        model.Entity<RoutineVersionRow>().HasAlternateKey(r => new { r.AgencyId, r.LearnerId, r.Id });
        model.Entity<PracticeRow>().HasAlternateKey(r => new { r.AgencyId, r.LearnerId, r.Id });
        model.Entity<ReportRow>().HasAlternateKey(r => new { r.AgencyId, r.LearnerId, r.Id });
        model.Entity<FamilySummaryRow>().HasAlternateKey(r => new { r.AgencyId, r.LearnerId, r.Id });
        model.Entity<RecordRequestRow>().HasAlternateKey(r => new { r.AgencyId, r.LearnerId, r.Id });
        model.Entity<BoundDateRow>().HasAlternateKey(r => new { r.AgencyId, r.LearnerId, r.Id });
        model.Entity<MeetingRow>().HasAlternateKey(r => new { r.AgencyId, r.LearnerId, r.Id });
        model.Entity<DebtRow>().HasAlternateKey(r => new { r.AgencyId, r.LearnerId, r.Id });
        model.Entity<AwardRow>().HasAlternateKey(r => new { r.AgencyId, r.LearnerId, r.Id });
        model.Entity<StatementRow>().HasAlternateKey(r => new { r.AgencyId, r.LearnerId, r.Id });
        model.Entity<MoveInRow>().HasAlternateKey(r => new { r.AgencyId, r.LearnerId, r.Id });
        model.Entity<MoveOutRow>().HasAlternateKey(r => new { r.AgencyId, r.LearnerId, r.Id });
        model.Entity<VisitRoutineRow>().HasKey(r => new { r.AgencyId, r.VisitId, r.RoutineId });
        model.Entity<SeriesRoutineRow>().HasKey(r => new { r.AgencyId, r.SeriesId, r.RoutineId });
        model.Entity<MailChoiceRow>().HasKey(r => new { r.AgencyId, r.PersonId });
        model.Entity<ReadFirstRow>().HasKey(r => new { r.AgencyId, r.LearnerId, r.PersonId, r.OnDay });
        model.Entity<CautionsSeenRow>().HasKey(r => new { r.AgencyId, r.PersonId, r.RoutineId, r.Mark });
        model.Entity<PlaceAddressRow>().HasKey(r => new { r.AgencyId, r.PlaceId });
        model.Entity<RoadStartRow>().HasKey(r => new { r.AgencyId, r.PersonId });
        model.Entity<ThingRow>().HasAlternateKey(r => new { r.AgencyId, r.LearnerId, r.Id });
    }

    public static void Conventions(ModelBuilder model, IMutableEntityType type)
    {
        var clr = type.ClrType;
        if (!typeof(IAgencyRow).IsAssignableFrom(clr))
        {
            Version(model, clr);
            return;
        }
        var entity = model.Entity(clr);
        if (type.FindPrimaryKey() is null || type.FindPrimaryKey()!.Properties is [{ Name: "Id" }])
            entity.HasKey("AgencyId", "Id");
        if (clr.GetProperty("Id")?.PropertyType is { } id && id != typeof(Guid))
            entity.Property("Id").ValueGeneratedOnAdd().UseIdentityByDefaultColumn();
        else if (clr.GetProperty("Id") is not null)
            entity.Property("Id").ValueGeneratedNever();
        entity.HasOne(typeof(AgencyRow)).WithMany().HasForeignKey("AgencyId").OnDelete(DeleteBehavior.Restrict);
        if (typeof(ILearnerRow).IsAssignableFrom(clr))
            Refers(model, clr, typeof(LearnerRow), "LearnerId");
        Version(model, clr);
        TakenBack(model, clr);
    }

    public static void Details(ModelBuilder model)
    {
        People(model);
        Around(model);
        Learners(model);
        Calendar(model);
        Series(model);
        PlacesAndHours(model);
        Routines(model);
        Practices(model);
        Reports(model);
        Family(model);
        Papers(model);
        Facts(model);
        Debts(model);
        Disputes(model);
        Retention(model);
        Moves(model);
        Samples(model);
        Things(model);
        Names(model);
        Closing(model);
        Devices(model);
        History(model);
        Mail(model);
    }

    private static void People(ModelBuilder model)
    {
        model.Entity<PersonRow>(t => t.Property(r => r.Email).HasColumnType("text"));
        Refers(model, typeof(PersonRoleRow), typeof(PersonRow), "PersonId");
        Refers(model, typeof(PersonDisciplineRow), typeof(PersonRow), "PersonId");
        Refers(model, typeof(RelationRow), typeof(PersonRow), "PersonId");
        Refers(model, typeof(RelationRow), typeof(PersonRow), "SupervisorId");
        model.Entity<RelationRow>().Property(r => r.TapsAtHome).HasDefaultValue(false);
        model.Entity<PersonDisciplineRow>().HasIndex(r => new { r.AgencyId, r.PersonId, r.Discipline }).IsUnique();
        model.Entity<PersonRoleRow>().HasIndex(r => new { r.AgencyId, r.PersonId });
        model.Entity<RelationRow>().HasIndex(r => new { r.AgencyId, r.PersonId });
        model.Entity<RelationRow>().HasIndex(r => new { r.AgencyId, r.LearnerId });
    }

    /// <summary>Substitutes, assistants, and who has read the plan.</summary>
    private static void Around(ModelBuilder model)
    {
        foreach (var row in new[] { typeof(SupervisionRow), typeof(ObservationRow) })
            Refers(model, row, typeof(PersonRow), "AssistantId");
        Refers(model, typeof(ObservationRow), typeof(PersonRow), "ObserverId");
        Refers(model, typeof(ReadFirstRow), typeof(PersonRow), "PersonId");
        model.Entity<SupervisionRow>().HasIndex(r => new { r.AgencyId, r.LearnerId });
        model.Entity<ObservationRow>().HasIndex(r => new { r.AgencyId, r.LearnerId });
        model.Entity<ReadFirstRow>().Property(r => r.At).HasDefaultValueSql("now()");
        Refers(model, typeof(SessionRow), typeof(PersonRow), "SupervisorId");
        Refers(model, typeof(SessionRow), typeof(PersonRow), "CountersignedBy");
        model.Entity<SessionRow>().HasIndex(r => new { r.AgencyId, r.LearnerId }).HasDatabaseName("ix_sessions_to_countersign")
            .HasFilter("live and supervisor_id is not null and countersigned_at is null");
        RefersWithLearner(model, typeof(AcknowledgmentRow), typeof(PlanRow), "PlanId");
        Refers(model, typeof(AcknowledgmentRow), typeof(PersonRow), "PersonId");
        model.Entity<AcknowledgmentRow>().HasIndex(r => new { r.AgencyId, r.PlanId, r.PersonId, r.State }).IsUnique();
        model.Entity<AcknowledgmentRow>().Property(r => r.At).HasDefaultValueSql("now()");
    }

    private static void Learners(ModelBuilder model)
    {
        model.Entity<LearnerRow>().HasIndex(r => new { r.AgencyId, r.Code }).IsUnique();
        Refers(model, typeof(LearnerRow), typeof(LearnerRow), "JoinedTo");
        Refers(model, typeof(LearnerRow), typeof(PersonRow), "JoinedBy");
        model.Entity<TeachPartRow>().HasIndex(r => new { r.AgencyId, r.LearnerId, r.Part }).IsUnique();
        RefersWithLearner(model, typeof(ServiceRow), typeof(PlanRow), "PlanId");
        RefersWithLearner(model, typeof(GoalRow), typeof(PlanRow), "PlanId");
        model.Entity<ServiceRow>().HasIndex(r => new { r.AgencyId, r.Code }).IsUnique().HasFilter("live");
        model.Entity<ServiceVersionRow>().HasIndex(r => new { r.AgencyId, r.Code }).IsUnique().HasFilter("live");
        model.Entity<ServiceVersionRow>().HasIndex(r => new { r.AgencyId, r.ServiceId, r.FromDay }).IsUnique().HasFilter("live");
        model.Entity<ServiceVersionRow>().Property(r => r.RecordedAt).HasDefaultValueSql("now()");
        model.Entity<ServiceVersionRow>().Property(r => r.AssistantsCount).HasDefaultValue(false);
        model.Entity<PlanRow>().Property(r => r.RecordedAt).HasDefaultValueSql("now()");
        model.Entity<GoalRow>().HasIndex(r => new { r.AgencyId, r.Code }).IsUnique().HasFilter("live");
        model.Entity<ProbeCommitmentRow>().HasIndex(r => new { r.AgencyId, r.GoalId, r.FromDay }).IsUnique().HasFilter("live");
        model.Entity<ProbeCommitmentRow>().Property(r => r.RecordedAt).HasDefaultValueSql("now()");
        foreach (var row in new[] { typeof(ServiceVersionRow), typeof(AssignmentRow), typeof(BalanceRow) })
            RefersWithLearner(model, row, typeof(ServiceRow), "ServiceId");
        foreach (var row in new[] { typeof(ProbeCommitmentRow), typeof(GoalOwnerRow), typeof(ObjectiveRow), typeof(GoalChangeRow) })
            RefersWithLearner(model, row, typeof(GoalRow), "GoalId");
        RefersWithLearner(model, typeof(ServiceRow), typeof(ServiceRow), "ContinuesId");
        model.Entity<ServiceRow>().HasIndex(r => new { r.AgencyId, r.LearnerId });
        model.Entity<PlanRow>().HasIndex(r => new { r.AgencyId, r.LearnerId });
        model.Entity<AssignmentRow>().HasIndex(r => new { r.AgencyId, r.ServiceId });
        model.Entity<AssignmentRow>().HasIndex(r => new { r.AgencyId, r.LearnerId });
        model.Entity<ServiceVersionRow>().HasIndex(r => new { r.AgencyId, r.LearnerId });
        model.Entity<GoalOwnerRow>().HasIndex(r => new { r.AgencyId, r.LearnerId });
        model.Entity<ObjectiveRow>().HasIndex(r => new { r.AgencyId, r.GoalId });
        model.Entity<GoalChangeRow>(t =>
        {
            t.HasIndex(r => new { r.AgencyId, r.GoalId });
            t.Property(r => r.RecordedBy).HasDefaultValueSql("current_setting('app.person')::int");
        });
        model.Entity<ProbeCommitmentRow>().HasIndex(r => new { r.AgencyId, r.LearnerId });
        model.Entity<GoalRow>(t =>
        {
            t.HasIndex(r => new { r.AgencyId, r.LearnerId });
            t.Property(r => r.Counts).HasDefaultValue(ProbeKind.Probe);
            t.Property(r => r.InARow).HasDefaultValue(GoalMeasure.UsualInARow);
        });
        model.Entity<BalanceRow>().HasIndex(r => new { r.AgencyId, r.ServiceId });
        Refers(model, typeof(AssignmentRow), typeof(PersonRow), "PersonId");
        Refers(model, typeof(GoalOwnerRow), typeof(PersonRow), "PersonId");
        Refers(model, typeof(GoalChangeRow), typeof(PersonRow), "RecordedBy");
    }

    private static void Calendar(ModelBuilder model)
    {
        model.Entity<TermRow>().HasIndex(r => new { r.AgencyId, r.Name }).IsUnique().HasFilter("live");
        model.Entity<PeriodRow>().HasIndex(r => new { r.AgencyId, r.Name }).IsUnique().HasFilter("live");
        model.Entity<ClosureRow>().HasIndex(r => new { r.AgencyId, r.OnDay }).IsUnique().HasFilter("live");
        model.Entity<ClosureRow>().Property(r => r.RecordedAt).HasDefaultValueSql("now()");
        model.Entity<PolicyRow>().HasIndex(r => new { r.AgencyId, r.FromDay });
        model.Entity<PolicyRow>().Property(r => r.RecordedAt).HasDefaultValueSql("now()");
        model.Entity<VisitRow>(t =>
        {
            t.Property(r => r.GroupNo).HasDefaultValueSql("nextval('portal.visit_numbers')");
            t.Property(r => r.TogetherNo).HasDefaultValueSql("nextval('portal.visit_numbers')");
            t.Property(r => r.RecordedAt).HasDefaultValueSql("now()");
            t.HasIndex(r => new { r.AgencyId, r.SeriesId, r.OriginalStart }).IsUnique().HasFilter("series_id is not null");
            t.HasIndex(r => new { r.AgencyId, r.LearnerId, r.OnDay });
            t.HasIndex(r => new { r.AgencyId, r.ProviderId, r.OnDay });
            t.HasIndex(r => new { r.AgencyId, r.ServiceId, r.OnDay });
            t.HasIndex(r => new { r.AgencyId, r.Ref }).IsUnique().HasFilter("ref is not null and live");
            t.HasIndex(r => new { r.AgencyId, r.AwayId }).HasFilter("away_id is not null");
            // Rows written by COPY and by imports say nothing of these.
            t.Property(r => r.Kind).HasDefaultValue(Core.Calendar.VisitKind.Service);
            t.Property(r => r.Touched).HasDefaultValue(false);
            t.Property(r => r.Sequence).HasDefaultValue(0);
            t.Property(r => r.OnClosedDay).HasDefaultValue(false);
            t.HasIndex(r => new { r.AgencyId, r.ClosureId }).HasFilter("closure_id is not null");
        });
        RefersWithLearner(model, typeof(VisitRow), typeof(ServiceRow), "ServiceId");
        Refers(model, typeof(VisitRow), typeof(PersonRow), "ProviderId");
        Refers(model, typeof(VisitRow), typeof(PersonRow), "PartnerId");
        RefersWithLearner(model, typeof(VisitRow), typeof(SeriesRow), "SeriesId");
        RefersWithLearner(model, typeof(VisitRow), typeof(AwayRow), "AwayId");
        Refers(model, typeof(VisitRow), typeof(ClosureRow), "ClosureId");
        Refers(model, typeof(VisitRow), typeof(PlaceRow), "PlaceId");
        RefersWithLearner(model, typeof(VisitGoalRow), typeof(VisitRow), "VisitId");
        model.Entity<HandedOverRow>().HasIndex(r => new { r.AgencyId, r.PersonId, r.OnDay });
        RefersWithLearner(model, typeof(HandedOverRow), typeof(VisitRow), "VisitId");
        Refers(model, typeof(HandedOverRow), typeof(PersonRow), "PersonId");
        Refers(model, typeof(HandedOverRow), typeof(PlaceRow), "PlaceId");
        RefersWithLearner(model, typeof(VisitGoalRow), typeof(GoalRow), "GoalId");
        model.HasSequence<long>("visit_numbers", PortalDb.Schema);
    }

    private static void Series(ModelBuilder model)
    {
        model.Entity<SeriesRow>(t =>
        {
            t.Property(r => r.GroupNo).HasDefaultValueSql("nextval('portal.visit_numbers')");
            t.Property(r => r.TogetherNo).HasDefaultValueSql("nextval('portal.visit_numbers')");
            t.Property(r => r.RecordedAt).HasDefaultValueSql("now()");
            t.HasIndex(r => new { r.AgencyId, r.LearnerId });
            t.HasIndex(r => new { r.AgencyId, r.ProviderId });
        });
        model.Entity<AwayRow>(t =>
        {
            t.Property(r => r.RecordedAt).HasDefaultValueSql("now()");
            t.Property(r => r.RecordedBy).HasDefaultValueSql("current_setting('app.person')::int");
            t.HasIndex(r => new { r.AgencyId, r.LearnerId, r.FromDay });
        });
        RefersWithLearner(model, typeof(SeriesRow), typeof(ServiceRow), "ServiceId");
        RefersWithLearner(model, typeof(SeriesRow), typeof(SeriesRow), "ContinuesId");
        Refers(model, typeof(SeriesRow), typeof(PersonRow), "ProviderId");
        Refers(model, typeof(SeriesRow), typeof(PersonRow), "PartnerId");
        Refers(model, typeof(SeriesRow), typeof(PlaceRow), "PlaceId");
    }

    private static void PlacesAndHours(ModelBuilder model)
    {
        model.Entity<PlaceRow>().HasIndex(r => new { r.AgencyId, r.Code }).IsUnique().HasFilter("live");
        model.Entity<LearnerPlaceRow>().HasIndex(r => new { r.AgencyId, r.LearnerId, r.Kind }).IsUnique().HasFilter("live");
        model.Entity<TravelTimeRow>().HasIndex(r => new { r.AgencyId, r.FromPlaceId, r.ToPlaceId }).IsUnique().HasFilter("live");
        model.Entity<WorkingHoursRow>().HasIndex(r => new { r.AgencyId, r.PersonId });
        model.Entity<OpenHoursRow>().HasIndex(r => new { r.AgencyId, r.LearnerId });
        Refers(model, typeof(LearnerPlaceRow), typeof(PlaceRow), "PlaceId");
        Refers(model, typeof(TravelTimeRow), typeof(PlaceRow), "FromPlaceId");
        Refers(model, typeof(TravelTimeRow), typeof(PlaceRow), "ToPlaceId");
        Refers(model, typeof(WorkingHoursRow), typeof(PersonRow), "PersonId");
        foreach (var row in new[] { typeof(PlaceAddressRow), typeof(RoadStartRow) })
            Refers(model, row, typeof(PlaceRow), "PlaceId");
        Refers(model, typeof(RoadStartRow), typeof(PersonRow), "PersonId");
    }

    private static void Routines(ModelBuilder model)
    {
        model.Entity<RoutineRow>().HasIndex(r => new { r.AgencyId, r.LearnerId, r.Name }).IsUnique().HasFilter("live");
        model.Entity<RoutineRow>().Property(r => r.RecordedAt).HasDefaultValueSql("now()");
        model.Entity<HomePracticeRow>().HasIndex(r => new { r.AgencyId, r.LearnerId });
        model.Entity<HomeLogRow>(t =>
        {
            t.HasIndex(r => new { r.AgencyId, r.LearnerId, r.OnDay });
            t.HasIndex(r => new { r.AgencyId, r.RoutineId, r.RecordedBy, r.OnDay }).IsUnique().HasFilter("live and by_family"); // one tap a day
            t.Property(r => r.Answer).HasDefaultValue(Core.Routines.HomeAnswer.Done);
            t.Property(r => r.ByFamily).HasDefaultValue(false);
        });
        model.Entity<HomeLogRow>().Property(r => r.RecordedBy).HasDefaultValueSql("current_setting('app.person')::int");
        Refers(model, typeof(HomeLogRow), typeof(PersonRow), "RecordedBy");
        foreach (var row in new[] { typeof(VisitRoutineRow), typeof(SeriesRoutineRow), typeof(HomePracticeRow), typeof(HomeLogRow) })
            RefersWithLearner(model, row, typeof(RoutineRow), "RoutineId");
        RefersWithLearner(model, typeof(VisitRoutineRow), typeof(VisitRow), "VisitId");
        Refers(model, typeof(RoutineRow), typeof(PersonRow), "EndedBy");
        Cards(model);
        Holds(model);
        RefersWithLearner(model, typeof(SeriesRoutineRow), typeof(SeriesRow), "SeriesId");
    }

    private static void Cards(ModelBuilder model)
    {
        model.Entity<RoutineVersionRow>(t =>
        {
            t.Property(r => r.Content).HasColumnType("jsonb");
            t.Property(r => r.WrittenAt).HasDefaultValueSql("now()");
            t.HasIndex(r => new { r.AgencyId, r.RoutineId, r.Number }).IsUnique();
            t.HasIndex(r => new { r.AgencyId, r.LearnerId });
        });
        model.Entity<RoutineReviewRow>().HasIndex(r => new { r.AgencyId, r.VersionId });
        model.Entity<RoutinePictureRow>().HasIndex(r => new { r.AgencyId, r.RoutineId });
        RefersWithLearner(model, typeof(RoutineVersionRow), typeof(RoutineRow), "RoutineId");
        RefersWithLearner(model, typeof(RoutinePictureRow), typeof(RoutineRow), "RoutineId");
        RefersWithLearner(model, typeof(RoutineReviewRow), typeof(RoutineVersionRow), "VersionId");
        Refers(model, typeof(RoutineVersionRow), typeof(PersonRow), "WrittenBy");
        Refers(model, typeof(RoutineReviewRow), typeof(PersonRow), "PersonId");
    }

    private static void Reports(ModelBuilder model)
    {
        model.Entity<ReportRow>().Property(r => r.Facts).HasColumnType("jsonb");
        model.Entity<ReportRow>().HasIndex(r => new { r.AgencyId, r.LearnerId, r.PeriodId }).IsUnique().HasFilter("live");
        model.Entity<ReportGoalRow>().HasIndex(r => new { r.AgencyId, r.ReportId, r.GoalId }).IsUnique();
        model.Entity<ReportGoalRow>().HasIndex(r => new { r.AgencyId, r.LearnerId });
        model.Entity<ReportPartRow>().HasIndex(r => new { r.AgencyId, r.ReportId, r.GoalId, r.PersonId }).IsUnique();
        model.Entity<ReportSignatureRow>().HasIndex(r => new { r.AgencyId, r.ReportId });
        Refers(model, typeof(ReportRow), typeof(PeriodRow), "PeriodId");
        foreach (var row in new[] { typeof(ReportGoalRow), typeof(ReportPartRow), typeof(ReportSignatureRow) })
            RefersWithLearner(model, row, typeof(ReportRow), "ReportId");
        RefersWithLearner(model, typeof(ReportGoalRow), typeof(GoalRow), "GoalId");
        RefersWithLearner(model, typeof(ReportPartRow), typeof(GoalRow), "GoalId");
        Refers(model, typeof(ReportPartRow), typeof(PersonRow), "PersonId");
        Refers(model, typeof(ReportSignatureRow), typeof(PersonRow), "PersonId");
    }

    private static void Family(ModelBuilder model)
    {
        model.Entity<FamilyRemarkRow>().HasIndex(r => new { r.AgencyId, r.LearnerId, r.SaidOn });
        RefersWithLearner(model, typeof(FamilyRemarkRow), typeof(VisitRow), "VisitId");
        Refers(model, typeof(FamilyRemarkRow), typeof(PersonRow), "EnteredBy");
        Refers(model, typeof(FamilyRemarkRow), typeof(PersonRow), "AnsweredBy");
        model.Entity<FamilySummaryRow>(t =>
        {
            t.Property(r => r.Content).HasColumnType("jsonb");
            t.HasIndex(r => new { r.AgencyId, r.LearnerId, r.LastDay });
            t.HasIndex(r => new { r.AgencyId, r.LearnerId }).IsUnique().HasFilter("live and published_at is null"); // one draft at a time
        });
        RefersWithLearner(model, typeof(FamilySummaryRow), typeof(FamilySummaryRow), "CorrectsId");
        Refers(model, typeof(FamilySummaryRow), typeof(PersonRow), "PublishedBy");
        model.Entity<RecordRequestRow>().HasIndex(r => new { r.AgencyId, r.LearnerId, r.ReceivedOn });
        Refers(model, typeof(RecordRequestRow), typeof(PersonRow), "EnteredBy");
        Refers(model, typeof(RecordRequestRow), typeof(PersonRow), "AnsweredBy");
        model.Entity<ParentStatementRow>().HasIndex(r => new { r.AgencyId, r.LearnerId });
        RefersWithLearner(model, typeof(ParentStatementRow), typeof(RecordRequestRow), "RequestId");
        RefersWithLearner(model, typeof(ParentStatementRow), typeof(VisitRow), "VisitId");
        RefersWithLearner(model, typeof(ParentStatementRow), typeof(ReportRow), "ReportId");
        Refers(model, typeof(ParentStatementRow), typeof(ProbeRow), "ProbeId");
    }

    private static void Papers(ModelBuilder model)
    {
        model.Entity<BoundDateRow>().HasIndex(r => new { r.AgencyId, r.LearnerId });
        RefersWithLearner(model, typeof(BoundDateRow), typeof(BoundDateRow), "FollowsId");
        model.Entity<DeliveryRow>().HasIndex(r => new { r.AgencyId, r.LearnerId });
        RefersWithLearner(model, typeof(DeliveryRow), typeof(ReportRow), "ReportId");
        RefersWithLearner(model, typeof(DeliveryRow), typeof(StatementRow), "StatementId");
        RefersWithLearner(model, typeof(DeliveryRow), typeof(MeetingRow), "MeetingId");
        model.Entity<MeetingRow>().Property(r => r.Content).HasColumnType("jsonb");
        model.Entity<MeetingRow>().HasIndex(r => new { r.AgencyId, r.LearnerId });
        model.Entity<ExtendedYearRow>().HasIndex(r => new { r.AgencyId, r.LearnerId });
        model.Entity<ExtendedYearRow>().HasIndex(r => new { r.AgencyId, r.LearnerId }, "one_open_extended_year").IsUnique().HasFilter("live and answer is null");
        model.Entity<LicenceRow>().HasIndex(r => new { r.AgencyId, r.PersonId });
        foreach (var (row, column) in new[] { (typeof(LicenceRow), "PersonId"), (typeof(LicenceRow), "EnteredBy"), (typeof(BoundDateRow), "EnteredBy"), (typeof(BoundDateRow), "DoneBy"), (typeof(DeliveryRow), "SentBy"), (typeof(MeetingRow), "MadeBy"), (typeof(ExtendedYearRow), "EnteredBy") })
            Refers(model, row, typeof(PersonRow), column);
    }

    private static void Practices(ModelBuilder model)
    {
        model.Entity<PracticeRow>(t =>
        {
            t.Property(r => r.Record).HasColumnType("jsonb");
            t.Property(r => r.RecordedAt).HasDefaultValueSql("now()");
            t.Property(r => r.RecordedBy).HasDefaultValueSql("current_setting('app.person')::int");
            t.HasIndex(r => new { r.AgencyId, r.LearnerId, r.OnDay });
            t.HasIndex(r => new { r.AgencyId, r.RoutineId, r.StartedAt });
            t.Property(r => r.UnderHolds).HasDefaultValueSql("'{}'");
            t.HasIndex(r => new { r.AgencyId, r.VisitId }).HasFilter("visit_id is not null");
            t.HasIndex(r => new { r.AgencyId, r.RoutineId, r.ObservesCode }).HasFilter("observes_code is not null");
        });
        RefersWithLearner(model, typeof(PracticeRow), typeof(RoutineRow), "RoutineId");
        RefersWithLearner(model, typeof(PracticeRow), typeof(RoutineVersionRow), "VersionId");
        RefersWithLearner(model, typeof(PracticeRow), typeof(VisitRow), "VisitId");
        RefersWithLearner(model, typeof(PracticeRow), typeof(PracticeRow), "Observes");
        Refers(model, typeof(PracticeRow), typeof(PersonRow), "ProviderId");
        Refers(model, typeof(PracticeRow), typeof(DeviceRow), "DeviceId");
        RefersWithLearner(model, typeof(TrialRow), typeof(PracticeRow), "PracticeId");
        model.Entity<TrialRow>().HasIndex(r => new { r.AgencyId, r.PracticeId });
        model.Entity<TrialRow>().HasIndex(r => new { r.AgencyId, r.LearnerId, r.Step });
    }

    private static void Things(ModelBuilder model)
    {
        model.Entity<ThingRow>(t =>
        {
            t.Property(r => r.Goals).HasDefaultValueSql("'{}'");
            t.Property(r => r.Routines).HasDefaultValueSql("'{}'");
            t.HasIndex(r => new { r.AgencyId, r.LearnerId });
        });
        model.Entity<ThingEventRow>().HasIndex(r => new { r.AgencyId, r.LearnerId, r.ThingId });
        RefersWithLearner(model, typeof(ThingEventRow), typeof(ThingRow), "ThingId");
        foreach (var (row, column) in new[] { (typeof(ThingRow), "OwnerId"), (typeof(ThingRow), "EnteredBy"), (typeof(ThingRow), "EndedBy"), (typeof(ThingEventRow), "EnteredBy") })
            Refers(model, row, typeof(PersonRow), column);
    }

    private static void Names(ModelBuilder model)
    {
        model.Entity<LearnerNameRow>().HasIndex(r => new { r.AgencyId, r.LearnerId, r.UntilDay });
        model.Entity<PersonNameRow>().HasIndex(r => new { r.AgencyId, r.PersonId, r.UntilDay });
        model.Entity<BirthRow>().HasIndex(r => new { r.AgencyId, r.LearnerId }).IsUnique();
        foreach (var (row, column) in new[] { (typeof(LearnerNameRow), "ChangedBy"), (typeof(PersonNameRow), "ChangedBy"), (typeof(PersonNameRow), "PersonId"), (typeof(BirthRow), "EnteredBy") })
            Refers(model, row, typeof(PersonRow), column);
    }

    private static void Debts(ModelBuilder model)
    {
        model.Entity<DebtRow>().Property(r => r.RecordedAt).HasDefaultValueSql("now()");
        model.Entity<DebtRow>().HasIndex(r => new { r.AgencyId, r.LearnerId });
        RefersWithLearner(model, typeof(DebtRow), typeof(ServiceRow), "ServiceId");
        RefersWithLearner(model, typeof(DebtRow), typeof(GoalRow), "GoalId");
        Refers(model, typeof(DebtRow), typeof(PersonRow), "OwnerId");
        Refers(model, typeof(DebtRow), typeof(PeriodRow), "PeriodId");
        model.Entity<DebtDecisionRow>(t =>
        {
            t.Property(r => r.RecordedAt).HasDefaultValueSql("now()");
            t.Property(r => r.RecordedBy).HasDefaultValueSql("current_setting('app.person')::int");
            t.HasIndex(r => new { r.AgencyId, r.LearnerId });
        });
        RefersWithLearner(model, typeof(DebtDecisionRow), typeof(DebtRow), "DebtId");
        model.Entity<AwardRow>(t =>
        {
            t.Property(r => r.RecordedAt).HasDefaultValueSql("now()");
            t.Property(r => r.RecordedBy).HasDefaultValueSql("current_setting('app.person')::int");
            t.HasIndex(r => new { r.AgencyId, r.LearnerId });
        });
        RefersWithLearner(model, typeof(AwardRow), typeof(ServiceRow), "ServiceId");
        RefersWithLearner(model, typeof(VisitRow), typeof(AwardRow), "AwardId");
        RefersWithLearner(model, typeof(SessionRow), typeof(AwardRow), "AwardId");
    }

    private static void Disputes(ModelBuilder model)
    {
        model.Entity<RecordHoldRow>().Property(r => r.SetAt).HasDefaultValueSql("now()");
        model.Entity<RecordHoldRow>().HasIndex(r => new { r.AgencyId, r.LearnerId });
        Refers(model, typeof(RecordHoldRow), typeof(PersonRow), "SetBy");
        Refers(model, typeof(RecordHoldRow), typeof(PersonRow), "EndedBy");
    }

    private static void Retention(ModelBuilder model)
    {
        model.Entity<RetentionRuleRow>().Property(r => r.SetAt).HasDefaultValueSql("now()");
        Refers(model, typeof(RetentionRuleRow), typeof(PersonRow), "SetBy");
        model.Entity<DestructionRow>().HasIndex(r => new { r.AgencyId, r.LearnerId, r.Kind }).IsUnique().HasFilter("destroyed_at is null and stopped_at is null");
        Refers(model, typeof(DestructionRow), typeof(RetentionRuleRow), "RuleId");
        foreach (var who in new[] { "AgreedBy", "StoppedBy", "DestroyedBy" })
            Refers(model, typeof(DestructionRow), typeof(PersonRow), who);
        model.Entity<ChangeRow>().HasIndex(r => new { r.AgencyId, r.DestructionId }).HasFilter("destruction_id is not null");
    }

    private static void Samples(ModelBuilder model)
    {
        model.Entity<SampleRow>().Property(r => r.DrawnAt).HasDefaultValueSql("now()");
        model.Entity<SampleFileRow>().HasIndex(r => new { r.AgencyId, r.SampleId, r.LearnerId }).IsUnique();
        model.Entity<SampleAnswerRow>().HasIndex(r => new { r.AgencyId, r.FileId, r.Question }).IsUnique();
        Refers(model, typeof(SampleRow), typeof(PeriodRow), "PeriodId");
        Refers(model, typeof(SampleRow), typeof(PersonRow), "DrawnBy");
        Refers(model, typeof(SampleFileRow), typeof(SampleRow), "SampleId");
        model.Entity<SampleFileRow>().HasAlternateKey(r => new { r.AgencyId, r.LearnerId, r.Id });
        RefersWithLearner(model, typeof(SampleAnswerRow), typeof(SampleFileRow), "FileId");
        Refers(model, typeof(SampleAnswerRow), typeof(PersonRow), "AnsweredBy");
    }

    private static void Devices(ModelBuilder model)
    {
        model.Entity<DeviceRow>().HasIndex(r => new { r.AgencyId, r.PersonId });
        model.Entity<DeviceRow>().Property(r => r.MadeAt).HasDefaultValueSql("now()");
        Refers(model, typeof(DeviceRow), typeof(PersonRow), "PersonId");
        model.Entity<SetAsideRow>(t =>
        {
            t.Property(r => r.At).HasDefaultValueSql("now()");
            t.HasIndex(r => new { r.AgencyId, r.PersonId, r.OperationId }).IsUnique();
            t.HasIndex(r => new { r.AgencyId, r.LearnerId }).HasFilter("closed_at is null");
        });
        model.Entity<SetAsideRow>().HasOne<OperationRow>().WithMany().HasForeignKey(r => new { r.AgencyId, r.PersonId, r.OperationId }).OnDelete(DeleteBehavior.Restrict);
        Refers(model, typeof(SetAsideRow), typeof(LearnerRow), "LearnerId");
        Refers(model, typeof(SetAsideRow), typeof(DeviceRow), "DeviceId");
    }

    private static void Holds(ModelBuilder model)
    {
        model.Entity<HoldRow>(t =>
        {
            t.Ignore(r => r.Place);
            t.HasIndex(r => new { r.AgencyId, r.LearnerId });
        });
        model.Entity<CautionsSeenRow>().Property(r => r.SeenAt).HasDefaultValueSql("now()");
        RefersWithLearner(model, typeof(HoldRow), typeof(RoutineRow), "RoutineId");
        RefersWithLearner(model, typeof(HoldRow), typeof(ServiceRow), "ServiceId");
        RefersWithLearner(model, typeof(CautionsSeenRow), typeof(RoutineRow), "RoutineId");
        Refers(model, typeof(HoldRow), typeof(PersonRow), "SetBy");
        Refers(model, typeof(HoldRow), typeof(PersonRow), "EndedBy");
        Refers(model, typeof(CautionsSeenRow), typeof(PersonRow), "PersonId");
    }

    private static void Facts(ModelBuilder model)
    {
        model.Entity<SessionRow>(t =>
        {
            t.Property(r => r.Routines).HasDefaultValueSql("'{}'");
            t.Property(r => r.Filled).HasColumnType("jsonb").HasDefaultValueSql("'[]'").HasConversion(
                f => JsonSerializer.Serialize(f, StrictJson.Options), json => JsonSerializer.Deserialize<Filled[]>(json, StrictJson.Options)!,
                new ValueComparer<Filled[]>((a, b) => a!.SequenceEqual(b!), f => f.Length, f => f));
            t.Property(r => r.RecordedAt).HasDefaultValueSql("now()");
            t.Property(r => r.RecordedBy).HasDefaultValueSql("current_setting('app.person')::int");
            t.HasIndex(r => new { r.AgencyId, r.VisitId }).IsUnique().HasFilter("live");
            t.HasIndex(r => new { r.AgencyId, r.LearnerId, r.OnDay });
            t.HasIndex(r => new { r.AgencyId, r.ServiceId, r.OnDay });
        });
        RefersWithLearner(model, typeof(SessionRow), typeof(ServiceRow), "ServiceId");
        RefersWithLearner(model, typeof(SessionRow), typeof(VisitRow), "VisitId");
        Refers(model, typeof(SessionRow), typeof(PersonRow), "ProviderId");
        Refers(model, typeof(SessionRow), typeof(PersonRow), "PartnerId");
        model.Entity<ProbeRow>(t =>
        {
            t.Property(r => r.FromFile).HasDefaultValue(false);
            t.Property(r => r.RecordedAt).HasDefaultValueSql("now()");
            t.Property(r => r.RecordedBy).HasDefaultValueSql("current_setting('app.person')::int");
            t.HasIndex(r => new { r.AgencyId, r.GoalId, r.OnDay });
            t.HasIndex(r => new { r.AgencyId, r.LearnerId, r.OnDay });
            t.HasIndex(r => new { r.AgencyId, r.PracticeId, r.GoalId }).IsUnique().HasFilter("practice_id is not null and live");
        });
        RefersWithLearner(model, typeof(ProbeRow), typeof(GoalRow), "GoalId");
        RefersWithLearner(model, typeof(ProbeRow), typeof(PracticeRow), "PracticeId");
        Refers(model, typeof(ProbeRow), typeof(PersonRow), "ProviderId");
        model.Entity<DecisionRow>(t =>
        {
            t.Property(r => r.RecordedAt).HasDefaultValueSql("now()");
            t.Property(r => r.RecordedBy).HasDefaultValueSql("current_setting('app.person')::int");
            t.HasIndex(r => new { r.AgencyId, r.ServiceId });
            t.HasIndex(r => new { r.AgencyId, r.GoalId });
            t.HasIndex(r => new { r.AgencyId, r.LearnerId });
        });
        RefersWithLearner(model, typeof(DecisionRow), typeof(ServiceRow), "ServiceId");
        RefersWithLearner(model, typeof(DecisionRow), typeof(GoalRow), "GoalId");
    }

    private static void Closing(ModelBuilder model)
    {
        Refers(model, typeof(LearnerPeriodRow), typeof(PeriodRow), "PeriodId");
        model.Entity<StatementRow>().HasIndex(r => new { r.AgencyId, r.LearnerId, r.PeriodId, r.Edition }).IsUnique();
        model.Entity<SealedLineRow>().HasIndex(r => new { r.AgencyId, r.StatementId, r.Position }).IsUnique();
        model.Entity<ReopeningRow>().HasIndex(r => new { r.AgencyId, r.LearnerId, r.PeriodId }).IsUnique().HasFilter("answered_at is null");
        foreach (var row in new[] { typeof(StatementRow), typeof(ReopeningRow) })
            Refers(model, row, typeof(PeriodRow), "PeriodId");
        RefersWithLearner(model, typeof(StatementRow), typeof(StatementRow), "RestatesId");
        foreach (var row in new[] { typeof(SealedLineRow), typeof(ReopeningRow) })
            RefersWithLearner(model, row, typeof(StatementRow), "StatementId");
        RefersWithLearner(model, typeof(SealedLineRow), typeof(ServiceRow), "ServiceId");
        RefersWithLearner(model, typeof(SealedLineRow), typeof(GoalRow), "GoalId");
        foreach (var (row, column) in new[] { (typeof(StatementRow), "SealedBy"), (typeof(StatementRow), "ReopenedBy"), (typeof(SealedLineRow), "OwnerId"), (typeof(ReopeningRow), "AskedBy"), (typeof(ReopeningRow), "AnsweredBy") })
            Refers(model, row, typeof(PersonRow), column);
    }

    private static void Moves(ModelBuilder model)
    {
        model.Entity<LastDayRow>().HasIndex(r => new { r.AgencyId, r.PersonId }).IsUnique().HasFilter("live");
        model.Entity<LearnerHandOverRow>().HasIndex(r => new { r.AgencyId, r.LearnerId });
        model.Entity<FiledItemRow>().HasIndex(r => new { r.AgencyId, r.LearnerId });
        model.Entity<MoveInRow>().HasIndex(r => new { r.AgencyId, r.LearnerId }).IsUnique();
        model.Entity<MoveOutRow>().HasIndex(r => new { r.AgencyId, r.LearnerId }).IsUnique().HasFilter("live");
        model.Entity<TransferFileRow>().Property(r => r.Content).HasColumnType("jsonb");
        RefersWithLearner(model, typeof(FiledItemRow), typeof(VisitRow), "VisitId");
        RefersWithLearner(model, typeof(FiledItemRow), typeof(ReportRow), "ReportId");
        RefersWithLearner(model, typeof(MoveInServiceRow), typeof(MoveInRow), "MoveInId");
        RefersWithLearner(model, typeof(MoveInServiceRow), typeof(ServiceRow), "ServiceId");
        RefersWithLearner(model, typeof(AskedRecordRow), typeof(MoveInRow), "MoveInId");
        RefersWithLearner(model, typeof(TransferFileRow), typeof(MoveOutRow), "MoveOutId");
        foreach (var (row, column) in new[]
        {
            (typeof(LastDayRow), "PersonId"), (typeof(LastDayRow), "SetBy"), (typeof(LastDayRow), "FinishedBy"), (typeof(LearnerHandOverRow), "PersonId"),
            (typeof(LearnerHandOverRow), "ToPersonId"), (typeof(LearnerHandOverRow), "ManagerId"), (typeof(LearnerHandOverRow), "DoneBy"),
            (typeof(LearnerHandOverRow), "UndoneBy"), (typeof(FiledItemRow), "PersonId"), (typeof(FiledItemRow), "FiledBy"), (typeof(MoveInRow), "DecidedBy"),
            (typeof(MoveInRow), "EnteredBy"), (typeof(MoveInServiceRow), "EnteredBy"), (typeof(AskedRecordRow), "AskedBy"), (typeof(MoveOutRow), "SetBy"),
            (typeof(TransferFileRow), "MadeBy"), (typeof(TransferFileRow), "SentBy"),
        })
            Refers(model, row, typeof(PersonRow), column);
    }

    private static void History(ModelBuilder model)
    {
        model.Entity<ChangeRow>(t =>
        {
            t.Property(r => r.Before).HasColumnType("jsonb");
            t.Property(r => r.After).HasColumnType("jsonb");
            t.HasIndex(r => new { r.AgencyId, r.LearnerId, r.Id });
            t.HasIndex(r => new { r.AgencyId, r.TableName, r.RowKey });
            t.HasIndex(r => new { r.AgencyId, r.Tx });
        });
        model.Entity<AccessRow>(t =>
        {
            t.Property(r => r.At).HasDefaultValueSql("clock_timestamp()");
            t.HasIndex(r => new { r.AgencyId, r.Id }).IsDescending(false, true);
        });
        model.Entity<OperationRow>(t =>
        {
            t.Property(r => r.Result).HasColumnType("jsonb");
            t.Property(r => r.At).HasDefaultValueSql("now()");
        });
        model.Entity<Import.ImportRow>(t =>
        {
            t.Property(r => r.Files).HasColumnType("jsonb");
            t.Property(r => r.At).HasDefaultValueSql("now()");
            t.Property(r => r.Tx).HasDefaultValueSql("pg_current_xact_id()::text::bigint");
        });
        Refers(model, typeof(Import.ImportRow), typeof(PersonRow), "UndoneBy");
        Refers(model, typeof(Import.ImportAdditionRow), typeof(Import.ImportRow), "ImportId");
    }

    private static void Mail(ModelBuilder model)
    {
        model.Entity<OutboxRow>().Ignore(r => r.MessageId);
        model.Entity<QuietRow>().HasIndex(r => new { r.AgencyId, r.LearnerId });
        model.Entity<JobRunRow>().HasIndex(r => new { r.AgencyId, r.Job, r.Id });
        Refers(model, typeof(OutboxRow), typeof(PersonRow), "PersonId");
        Refers(model, typeof(OutboxRow), typeof(LearnerRow), "LearnerId");
        Refers(model, typeof(MailChoiceRow), typeof(PersonRow), "PersonId");
        Refers(model, typeof(QuietRow), typeof(PersonRow), "SetBy");
        Refers(model, typeof(QuietRow), typeof(PersonRow), "EndedBy");
    }

    private static void Refers(ModelBuilder model, Type from, Type to, string column) =>
        model.Entity(from).HasOne(to).WithMany().HasForeignKey("AgencyId", column)
            .HasPrincipalKey("AgencyId", "Id").OnDelete(DeleteBehavior.Restrict);

    private static void RefersWithLearner(ModelBuilder model, Type from, Type to, string column) =>
        model.Entity(from).HasOne(to).WithMany().HasForeignKey("AgencyId", "LearnerId", column)
            .HasPrincipalKey("AgencyId", "LearnerId", "Id").OnDelete(DeleteBehavior.Restrict);

    private static void Version(ModelBuilder model, Type clr)
    {
        if (typeof(IVersionedRow).IsAssignableFrom(clr))
            model.Entity(clr).Property(nameof(IVersionedRow.Version))
                .HasDefaultValue(1).ValueGeneratedOnAddOrUpdate().IsConcurrencyToken();
    }

    private static void TakenBack(ModelBuilder model, Type clr)
    {
        if (!typeof(ITakenBackRow).IsAssignableFrom(clr))
            return;
        var row = Expression.Parameter(clr);
        model.Entity(clr).HasQueryFilter(Expression.Lambda(Expression.Property(row, nameof(ITakenBackRow.Live)), row));
        model.Entity(clr).Property(nameof(ITakenBackRow.RecordedAt)).HasDefaultValueSql("now()");
    }
}
