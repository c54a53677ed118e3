using Microsoft.EntityFrameworkCore;
using Microsoft.Extensions.DependencyInjection;
using Microsoft.Extensions.DependencyInjection.Extensions;
using TeamCircle.Data.Account;
using TeamCircle.Data.Beginning;
using TeamCircle.Data.Calendar;
using TeamCircle.Data.Closing;
using TeamCircle.Data.Commitments;
using TeamCircle.Data.Demonstration;
using TeamCircle.Data.Devices;
using TeamCircle.Data.Disputes;
using TeamCircle.Data.Family;
using TeamCircle.Data.Finding;
using TeamCircle.Data.History;
using TeamCircle.Data.Import;
using TeamCircle.Data.Jobs;
using TeamCircle.Data.Learners;
using TeamCircle.Data.Mail;
using TeamCircle.Data.MakeUps;
using TeamCircle.Data.Monitoring;
using TeamCircle.Data.Moves;
using TeamCircle.Data.Names;
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

/// <summary>Registers what remembers; each feature adds its own line.</summary>
public static class DataServices
{
    private const int MostConnections = 60, MostAccountConnections = 20;

    /// <param name="connection">A connection string that signs in as the application role.</param>
    /// <param name="reads">The same for long readings that may be some moments old; null or empty where no standby is named.</param>
    public static IServiceCollection AddTeamCircleData(this IServiceCollection services, string connection, string? reads = null)
    {
        // A server has a hundred places by default: these pools and the jobs' leases leave some for backups and commands. Who comes when all
        // are taken waits; without a bound the server refused them (seen: 53300 with fifty forms at once).
        var app = Pools.Of(connection, "TeamCircle", MostConnections);
        var account = Pools.Of(connection, "TeamCircle accounts", MostAccountConnections);
        account.Options = $"-c role=teamcircle_account -c idle_in_transaction_session_timeout={Portal.LongestStandstill}";
        services.TryAddSingleton(TimeProvider.System);
        services.AddPooledDbContextFactory<PortalDb>(o => o.UsePortal(app.ConnectionString));
        services.AddPooledDbContextFactory<AccountDb>(o => o.UseAccount(account.ConnectionString));
        services.AddSingleton<Portal>();
        services.AddKeyedSingleton(JobLease.Door, new Portal(Contexts.PortalFactory(JobLease.Connection(connection))));
        services.AddSingleton(provider => new StandbyReads(provider.GetRequiredService<Portal>(), reads));
        return services
            .AddAccount()
            .AddPeople()
            .AddLearners()
            .AddCalendar()
            .AddCalendarViews()
            .AddRoutines()
            .AddSessions()
            .AddCommitments()
            .AddClosing()
            .AddMakeUps()
            .AddProgress()
            .AddPractice()
            .AddReports()
            .AddDevices()
            .AddImport()
            .AddHistory()
            .AddFamily().AddRights()
            .AddPapers()
            .AddThings()
            .AddRoad()
            .AddHolds()
            .AddQuiet()
            .AddMail()
            .AddDisputes()
            .AddRetention()
            .AddMoves()
            .AddMonitoring();
    }

    private static IServiceCollection AddPeople(this IServiceCollection services) => services
        .AddScoped<FindByWords>().AddScoped<ReadRecent>()
        .AddScoped<ReadCaller>().AddScoped<ReadToday>().AddScoped<ReadPeople>()
        .AddScoped<InvitePerson>().AddScoped<GiveRole>().AddScoped<EndRole>().AddScoped<EndPerson>()
        .AddScoped<ReadNames>().AddScoped<RenameLearner>().AddScoped<RenamePerson>()
        .AddScoped<ReadComingOfAge>().AddScoped<EnterBirth>().AddScoped<DecideSeat>().AddScoped<SetMajority>()
        .AddScoped<ReadStaff>().AddScoped<ReadTeam>().AddScoped<AddTeamMember>().AddScoped<EndTeamMember>()
        .AddScoped<SendSubstitute>().AddScoped<ReadFirst>().AddScoped<MarkReadFirst>()
        .AddScoped<ReadSupervision>().AddScoped<SetSupervision>().AddScoped<NoteObservation>().AddScoped<TakeBackObservation>();

    private static IServiceCollection AddLearners(this IServiceCollection services) => services
        .AddScoped<ReadCaseload>().AddScoped<ReadLearner>().AddScoped<ReadSinceMyVisit>().AddScoped<EditTeachPart>()
        .AddScoped<ReadPlan>().AddScoped<ReadAcknowledged>().AddScoped<Acknowledge>().AddScoped<AddLearner>().AddScoped<JoinLearners>().AddScoped<ChangeLearner>().AddScoped<StartPlan>().AddScoped<ChangePlan>()
        .AddScoped<AddService>().AddScoped<AmendService>().AddScoped<EndService>().AddScoped<TakeBackAmendment>().AddScoped<TakeBackService>()
        .AddScoped<AssignProvider>().AddScoped<EndAssignment>()
        .AddScoped<AddGoal>().AddScoped<ChangeGoal>().AddScoped<SetProbes>().AddScoped<AddOwner>().AddScoped<EndOwner>().AddScoped<TakeBackGoal>();

    private static IServiceCollection AddCalendar(this IServiceCollection services) => services
        .AddScoped<ReadCalendar>().AddScoped<SetTerms>().AddScoped<ReadPeriods>().AddScoped<SetPeriods>()
        .AddScoped<AddClosure>().AddScoped<TakeBackClosure>().AddScoped<ReadClosureVisits>().AddScoped<CancelClosedVisits>().AddScoped<BringBackClosedVisits>().AddScoped<OfferHolidays>().AddScoped<AddHolidays>()
        .AddScoped<ReadPolicies>().AddScoped<ChangePolicy>().AddScoped<TakeBackPolicy>()
        .AddScoped<ScheduleVisit>().AddScoped<ScheduleSeries>().AddScoped<ChangeVisit>().AddScoped<ChangeFollowing>().AddScoped<ChangeAll>()
        .AddScoped<HandOver>().AddScoped<CancelVisit>().AddScoped<EndSeries>().AddScoped<UndoChange>()
        .AddScoped<AddAway>().AddScoped<EndAway>().AddScoped<SetAwayMeetingDays>().AddScoped<TopUpSeries>().AddScoped<DeriveInstants>()
        .AddScoped<SavePlace>().AddScoped<ChangeTimeZone>().AddScoped<SetTravelTimes>().AddScoped<SetDistanceUnit>().AddScoped<PlaceTurns>().AddScoped<SetWorkingHours>().AddScoped<SetOpenHours>().AddScoped<ReadPlaces>()
        .AddScoped<ReadPlanning>().AddScoped<ReadPlannedVisit>().AddScoped<ReadAways>();

    private static IServiceCollection AddCalendarViews(this IServiceCollection services) => services.AddScoped<ReadWeek>().AddScoped<ReadFeedVisits>()
        .AddScoped<ReadRoutines>().AddScoped<ReadCoverage>().AddScoped<ReadDayStrip>().AddScoped<PlanAtVisits>().AddScoped<PlanAtHome>()
        .AddScoped<ReadHomeLogs>().AddScoped<LogAtHome>().AddScoped<TakeBackHomeLog>().AddScoped<LetTapAtHome>().AddScoped<HomeTurns>()
        .AddScoped<ReadHomeTaps>().AddScoped<TapAtHome>().AddScoped<UndoHomeTap>();

    private static IServiceCollection AddRoutines(this IServiceCollection services) => services.AddScoped<ReadRoutine>().AddScoped<AddRoutine>()
        .AddScoped<WriteRoutine>().AddScoped<ReviewRoutine>().AddScoped<TakeBackReview>().AddScoped<AddPicture>().AddScoped<RemovePicture>()
        .AddScoped<RenameRoutine>().AddScoped<EndRoutine>().AddScoped<ResumeRoutine>();

    private static IServiceCollection AddCommitments(this IServiceCollection services) =>
        services.AddScoped<ReadAudit>().AddScoped<ReadLedger>().AddScoped<ReadStandingLines>().AddScoped<ReadForecasts>().AddScoped<Decide>().AddScoped<ReadDecide>().AddScoped<TakeBackDecision>()
            .AddScoped<ReadBroughtForward>().AddScoped<ReadStatement>().AddScoped<DecideDebt>().AddScoped<TakeBackDebtDecision>().AddScoped<AddAward>().AddScoped<TakeBackAward>();

    private static IServiceCollection AddClosing(this IServiceCollection services) => services
        .AddScoped<ReadCount>().AddScoped<ReadOpenCounts>().AddScoped<SealStatement>().AddScoped<ClosePeriod>().AddScoped<RestatePeriod>()
        .AddScoped<AskToReopen>().AddScoped<AnswerReopening>();

    private static IServiceCollection AddMakeUps(this IServiceCollection services) =>
        services.AddScoped<ReadMakeUps>().AddScoped<AcceptMakeUp>();

    private static IServiceCollection AddProgress(this IServiceCollection services) =>
        services.AddScoped<ReadGoal>().AddScoped<AddProbe>().AddScoped<CorrectProbe>().AddScoped<TakeBackProbe>()
            .AddScoped<ReadGoalCourse>().AddScoped<ReadGoalChanges>().AddScoped<ReadEffects>().AddScoped<NoteTeachingChange>().AddScoped<TakeBackTeachingChange>();

    private static IServiceCollection AddReports(this IServiceCollection services) => services
        .AddScoped<ReadReports>().AddScoped<ReadReport>().AddScoped<BeginReport>().AddScoped<BringInFigures>().AddScoped<WritePart>().AddScoped<JoinGoal>()
        .AddScoped<SignReport>().AddScoped<ShareReport>().AddScoped<CorrectReport>().AddScoped<CloseReview>();

    private static IServiceCollection AddPractice(this IServiceCollection services) => services
        .AddScoped<RecordPractice>().AddScoped<ScorePractice>().AddScoped<ReadPractice>().AddScoped<ReadOverTime>().AddScoped<ReadPractices>()
        .AddScoped<ReadWait>().AddScoped<ReadHands>();

    private static IServiceCollection AddDevices(this IServiceCollection services)
    {
        services.AddDataProtection(); // where its keys are kept is for the program to say
        return services.AddSingleton<DeviceKeys>().AddScoped<EnrolDevice>().AddScoped<OpenDevice>().AddScoped<RevokeDevice>().AddScoped<ReadDevices>()
            .AddScoped<ReportContact>().AddScoped<ReadBundle>().AddScoped<ReadDevicePicture>().AddScoped<DeviceActs>().AddScoped<SyncOperations>()
            .AddScoped<ReadSetAside>().AddScoped<EnterSetAside>().AddScoped<CloseSetAside>();
    }

    private static IServiceCollection AddSessions(this IServiceCollection services) =>
        services.AddScoped<ReadMyDay>().AddScoped<ReadVisit>().AddScoped<ReadServiceChoices>()
            .AddScoped<LogSession>().AddScoped<CorrectSession>().AddScoped<TakeBackSession>().AddScoped<ConfirmTogether>()
            .AddScoped<DeclineTogether>().AddScoped<CallOff>().AddScoped<RunningLate>()
            .AddScoped<ReadCountersign>().AddScoped<Countersign>().AddScoped<SendBack>();

    private static IServiceCollection AddImport(this IServiceCollection services) =>
        services.AddScoped<ImportFolder>().AddScoped<ReadBeginning>().AddScoped<ReadImports>().AddScoped<UndoImport>().AddScoped<SeedDemonstration>();

    // Sealing and verifying need a SealKey, which each program registers: only it knows its folders.
    private static IServiceCollection AddHistory(this IServiceCollection services) =>
        services.AddSingleton<OpenRecord>().AddSingleton<NoteTooMany>().AddScoped<ReadTooMany>().AddScoped<ReadAccess>().AddScoped<SealChanges>().AddScoped<VerifyChanges>().AddScoped<VerifyStatements>();

    private static IServiceCollection AddHolds(this IServiceCollection services) =>
        services.AddScoped<ReadHolds>().AddScoped<ReadHeardHolds>().AddScoped<SetHold>().AddScoped<EndHold>().AddScoped<SeeCautions>().AddScoped<SetPracticeRules>();

    private static IServiceCollection AddMail(this IServiceCollection services) => services
        .AddSingleton<MailSecrets>().AddScoped<ReadDigest>().AddScoped<WriteMail>().AddScoped<SendMail>().AddScoped<QueueDigests>()
        .AddScoped<ReadChoices>().AddScoped<ChooseMails>().AddScoped<Unsubscribe>().AddScoped<ReadOutbox>().AddScoped<TryAgain>().AddScoped<SendTest>()
        .AddSingleton<JobLease>().AddScoped<NoteRun>().AddScoped<ReadRuns>().AddScoped<ReadAgencies>();

    private static IServiceCollection AddQuiet(this IServiceCollection services) => services.AddScoped<ReadQuiet>().AddScoped<SetQuiet>().AddScoped<EndQuiet>();

    private static IServiceCollection AddFamily(this IServiceCollection services) => services
        .AddScoped<ReadFamilyFacts>().AddScoped<ReadSummaries>().AddScoped<BeginSummary>().AddScoped<WriteSummary>().AddScoped<PublishSummary>()
        .AddScoped<TakeBackSummary>().AddScoped<CorrectSummary>().AddScoped<SummaryTurns>().AddScoped<WritePlainWords>()
        .AddScoped<ReadRemarks>().AddScoped<EnterRemark>().AddScoped<TellTeam>().AddScoped<AnswerRemark>().AddScoped<SetFamilySwitch>();

    private static IServiceCollection AddRights(this IServiceCollection services) => services
        .AddScoped<ReadRequests>().AddScoped<ReceiveRequest>().AddScoped<AnswerRequest>().AddScoped<NoteHearing>().AddScoped<AddStatement>().AddScoped<CopyRecord>().AddScoped<ReadCopy>().AddScoped<RequestTurns>().AddScoped<ReadStatements>();

    private static IServiceCollection AddPapers(this IServiceCollection services) => services
        .AddScoped<ReadDates>().AddScoped<AddBoundDate>().AddScoped<DoBoundDate>().AddScoped<MoveBoundDate>()
        .AddScoped<ReadPacks>().AddScoped<MakePack>().AddScoped<ChangePack>()
        .AddScoped<ReadPapers>().AddScoped<SendPaper>().AddScoped<ChangeDelivery>()
        .AddScoped<ReadLicences>().AddScoped<KeepLicence>()
        .AddScoped<ReadExtendedYear>().AddScoped<AskExtendedYear>().AddScoped<DecideExtendedYear>();

    private static IServiceCollection AddThings(this IServiceCollection services) =>
        services.AddScoped<ReadThings>().AddScoped<PromiseThing>().AddScoped<NoteThing>().AddScoped<TakeBackThingEvent>().AddScoped<EndThing>().AddScoped<ThingTurns>();

    private static IServiceCollection AddRoad(this IServiceCollection services) => services.AddScoped<ReadRoad>().AddScoped<SetRoadStart>();

    private static IServiceCollection AddDisputes(this IServiceCollection services) =>
        services.AddScoped<HoldRecords>().AddScoped<EndRecordHold>().AddScoped<ReadRecordHolds>().AddScoped<ReadFactsInOrder>();

    private static IServiceCollection AddRetention(this IServiceCollection services) => services
        .AddScoped<ReadRetention>().AddScoped<SetRetention>().AddScoped<ProposeDestructions>().AddScoped<AskDestruction>().AddScoped<TellFamily>()
        .AddScoped<AgreeDestruction>().AddScoped<DestroyRecords>().AddScoped<StopDestruction>().AddScoped<DestructionActs>();

    private static IServiceCollection AddMoves(this IServiceCollection services) => services
        .AddScoped<ReadLastDay>().AddScoped<SetLastDay>().AddScoped<TakeBackLastDay>().AddScoped<FinishHandOver>().AddScoped<LastDayActs>()
        .AddScoped<HandOverLearner>().AddScoped<UndoHandOver>().AddScoped<FileItem>().AddScoped<DecideLeftVisit>().AddScoped<ReadLeftVisit>().AddScoped<HandOverActs>()
        .AddScoped<ReadMoveIn>().AddScoped<BeginMoveIn>().AddScoped<AddComparable>().AddScoped<TakeBackComparable>().AddScoped<AskForRecords>().AddScoped<ReceiveRecords>().AddScoped<DecideMoveIn>().AddScoped<MoveInActs>()
        .AddScoped<ReadMoveOut>().AddScoped<BeginMoveOut>().AddScoped<TakeBackMoveOut>().AddScoped<WriteTransfer>().AddScoped<MakeTransferFile>().AddScoped<NoteSent>().AddScoped<MoveOutActs>();

    private static IServiceCollection AddMonitoring(this IServiceCollection services) =>
        services.AddScoped<ReadReviewFiles>().AddScoped<ReadIndicators>().AddScoped<ReadSamples>().AddScoped<DrawSample>().AddScoped<AnswerFile>();
}
