using Microsoft.EntityFrameworkCore;
using TeamCircle.Core.People;
using TeamCircle.Core.Retention;

namespace TeamCircle.Data.Retention;

/// <summary>How long a part of every record is kept.</summary>
/// <param name="Years">Null: kept, without end.</param>
/// <param name="Reason">Null where nobody has set anything.</param>
public sealed record RetentionRule(RecordKind Kind, int? Years, CountedFrom? From, int NoticeDays, string? Reason, string? SetBy, LocalDate? SetOn);

/// <summary>A part of a record that is to be, or was, destroyed.</summary>
/// <param name="AskedBy">Null where a rule proposes it.</param>
/// <param name="Rule">The reason of the rule that proposes it; null where the family asked.</param>
/// <param name="Destroyed">Entries that went; null before.</param>
/// <param name="Kept">What keeps the record now: hold, request or quiet; null where nothing does, or it is over.</param>
public sealed record DestructionShown(
    int Id, int Version, int LearnerId, string Code, RecordKind Kind, LocalDate UpTo, int Found, LocalDate ProposedOn, int NoticeDays, string? AskedBy, LocalDate? AskedOn, string? Rule,
    LocalDate? NoticeOn, string? ToWhom, string? Way, LocalDate? WaitUntil, string? AgreedBy, LocalDate? AgreedOn, string? EndedBy, LocalDate? EndedOn, string? StoppedWhy,
    int? Destroyed, int? Emptied, DestructionStage Stage, string? Kept, bool IAgreed);

/// <param name="Rules">One for each part of a record.</param>
/// <param name="Open">What waits for somebody, the oldest proposal first.</param>
/// <param name="Over">What was destroyed or stopped, the latest first; at most <see cref="ReadRetention.MostOver"/>.</param>
public sealed record RetentionPage(IReadOnlyList<RetentionRule> Rules, IReadOnlyList<DestructionShown> Open, IReadOnlyList<DestructionShown> Over);

/// <param name="Learner">By name.</param>
/// <param name="Counts">How many entries each part of the record holds today.</param>
public sealed record LearnerRetentionPage(int LearnerId, string Learner, string Agency, IReadOnlyList<(RecordKind Kind, int Count)> Counts, IReadOnlyList<DestructionShown> All);

/// <summary>Reads the agency's rules for keeping and destroying, and what came of them.</summary>
public sealed class ReadRetention(Portal portal)
{
    public const int MostOver = 100;

    public Task<RetentionPage> RunAsync(Caller caller, Scope scope, CancellationToken stop = default) => portal.ReadAsync(scope, async db =>
    {
        var zone = DateTimeZoneProviders.Tzdb[await db.Agencies.Where(a => a.Id == caller.AgencyId).Select(a => a.TimeZone).SingleAsync(stop)];
        var inForce = (await ProposeDestructions.InForceAsync(db, caller.AgencyId, stop)).ToDictionary(r => r.Kind);
        var names = await db.People.Where(p => p.AgencyId == caller.AgencyId).ToDictionaryAsync(p => p.Id, p => p.Name, stop);
        var all = await ShownAsync(db, caller, null, zone, stop);
        return new RetentionPage(
            [.. Enum.GetValues<RecordKind>().Select(k => inForce.GetValueOrDefault(k) is { } r
                ? new RetentionRule(k, r.Years, r.CountedFrom, r.NoticeDays, r.Reason, names.GetValueOrDefault(r.SetBy), r.SetAt.InZone(zone).Date)
                : new RetentionRule(k, null, null, RetentionRules.UsualNoticeDays, null, null, null))],
            [.. all.Where(IsOpen)], [.. all.Where(d => !IsOpen(d)).OrderByDescending(d => d.EndedOn).ThenByDescending(d => d.Id).Take(MostOver)]);
    }, stop);

    /// <summary>Null for whoever does not keep the learner's record.</summary>
    public async Task<LearnerRetentionPage?> OfLearnerAsync(Caller caller, int learner, CancellationToken stop = default) =>
        !RetentionRules.MayKeep(caller, learner) ? null : await portal.ReadAsync(Scope.WholeAgency(caller, "retention"), async db =>
        {
            var name = await db.Learners.Where(l => l.AgencyId == caller.AgencyId && l.Id == learner).Select(l => l.LegalName ?? l.Name).SingleOrDefaultAsync(stop);
            if (name is null)
                return null;
            var counts = await db.Database.SqlQuery<Counted>(
                $"""select k as kind, (select count(*)::int from portal.records_of({learner}, k, {caller.Today})) as count from unnest({Enum.GetNames<RecordKind>()}) k""").ToListAsync(stop);
            var agency = await db.Agencies.Where(a => a.Id == caller.AgencyId).Select(a => new { a.Name, a.TimeZone }).SingleAsync(stop);
            var all = await ShownAsync(db, caller, learner, DateTimeZoneProviders.Tzdb[agency.TimeZone], stop);
            return new LearnerRetentionPage(learner, name, agency.Name, [.. counts.Select(c => (Enum.Parse<RecordKind>(c.Kind), c.Count)).OrderBy(c => c.Item1)],
                [.. all.OrderByDescending(d => d.Id)]);
        }, stop);

    private sealed record Counted(string Kind, int Count);

    private static bool IsOpen(DestructionShown d) => d.Stage is not (DestructionStage.Destroyed or DestructionStage.Stopped);

    /// <param name="learner">Null: of all.</param>
    private static async Task<IReadOnlyList<DestructionShown>> ShownAsync(PortalDb db, Caller caller, int? learner, DateTimeZone zone, CancellationToken stop)
    {
        var names = await db.People.Where(p => p.AgencyId == caller.AgencyId).ToDictionaryAsync(p => p.Id, p => p.Name, stop);
        var rows = await (
            from d in db.Destructions
            join l in db.Learners on new { d.AgencyId, Id = d.LearnerId } equals new { l.AgencyId, l.Id }
            where d.AgencyId == caller.AgencyId && (learner == null || d.LearnerId == learner)
            orderby d.Id
            select new { Row = d, l.Code, Rule = db.RetentionRules.Where(r => r.AgencyId == d.AgencyId && r.Id == d.RuleId).Select(r => r.Reason).FirstOrDefault() }).ToListAsync(stop);
        var kept = learner is { } one ? await KeptAsync(db, caller.AgencyId, one, stop) : [];
        return [.. rows.Select(r => Shown(r.Row, r.Code, r.Rule, names, zone, caller, kept.GetValueOrDefault(r.Row.Id)))];
    }

    private sealed record KeptNow(int Id, string What);

    private static async Task<Dictionary<int, string>> KeptAsync(PortalDb db, int agency, int learner, CancellationToken stop)
    {
        var rows = await db.Database.SqlQuery<KeptNow>(
            $"""
            select k.id, k.what from (
                select d.id, portal.kept_by(d.learner_id, d.kind, d.up_to) as what from portal.destructions d
                where d.agency_id = {agency} and d.learner_id = {learner} and d.destroyed_at is null and d.stopped_at is null) k
            where k.what is not null
            """).ToListAsync(stop);
        return rows.ToDictionary(r => r.Id, r => DestructionTurn.WordsOf(r.What));
    }

    private static DestructionShown Shown(DestructionRow d, string code, string? rule, Dictionary<int, string> names, DateTimeZone zone, Caller caller, string? kept)
    {
        string? Name(int? id) => id is { } one ? names.GetValueOrDefault(one, "a colleague") : null;
        LocalDate? Day(Instant? at) => at?.InZone(zone).Date;
        return new(
            d.Id, d.Version, d.LearnerId, code, d.Kind, d.UpTo, d.Found, d.ProposedOn, d.NoticeDays, d.AskedBy, d.AskedOn, rule, d.NoticeOn, d.ToWhom, d.Way, d.WaitUntil, Name(d.AgreedBy), Day(d.AgreedAt),
            Name(d.DestroyedBy ?? d.StoppedBy), Day(d.DestroyedAt ?? d.StoppedAt), d.StoppedWhy, d.Destroyed, d.Emptied, DestructionTurn.StageOf(d, caller.Today), kept, d.AgreedBy == caller.PersonId);
    }
}
