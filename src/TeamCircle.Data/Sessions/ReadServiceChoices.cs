using Microsoft.EntityFrameworkCore;
using TeamCircle.Core.Learners;
using TeamCircle.Core.People;
using TeamCircle.Core.Sessions;
using TeamCircle.Data.Closing;
using TeamCircle.Data.People;

namespace TeamCircle.Data.Sessions;

/// <summary>Reads the services for which somebody can log a visit that nobody had scheduled.</summary>
public sealed class ReadServiceChoices(Portal portal)
{
    /// <param name="IsMine">Whether the reader is assigned to it today: these come first.</param>
    public sealed record Choice(
        int Id, int LearnerId, string Learner, Discipline Discipline, Place Place, SessionFormat Format, CoTreatment CoTreatment, bool IsMine);

    public sealed record Choices(IReadOnlyList<Choice> Services, IReadOnlyList<TeamMember> Team)
    {
        /// <summary>Awards of compensatory services that a visit can be for.</summary>
        public IReadOnlyList<AwardChoice> Awards { get; init; } = [];
    }

    /// <summary>The running services of all learners with whom the caller works; without those for whom they stand in and have not read first how they are taught.</summary>
    public Task<Choices> RunAsync(Caller caller, CancellationToken stop = default) => portal.ReadAsync(Scope.Of(caller), async db =>
    {
        var unread = await ReadFirst.UnreadAsync(db, caller, stop);
        return await ReadAsync(db, caller, [.. caller.Learners.Where(l => RecordRules.MayRecord(caller, l, caller.PersonId) && !unread.Contains(l))], stop);
    }, stop);

    private static async Task<Choices> ReadAsync(PortalDb db, Caller caller, int[] learners, CancellationToken stop) =>
        new(await RunningAsync(db, caller, learners, stop), await TeamMember.ReadAsync(db, caller.AgencyId, learners, caller.Today, stop))
        {
            Awards = await LearnerAwards.ChoicesAsync(db, caller.AgencyId, learners, stop),
        };

    /// <summary>Services that run or ended not long ago, the caller's own first.</summary>
    internal static async Task<IReadOnlyList<Choice>> RunningAsync(PortalDb db, Caller caller, int[] learners, CancellationToken stop)
    {
        var (agency, today) = (caller.AgencyId, caller.Today);
        var recent = today.PlusMonths(-2);
        var services = await (
            from s in db.Services
            join l in db.Learners on new { s.AgencyId, Id = s.LearnerId } equals new { l.AgencyId, l.Id }
            where s.AgencyId == agency && learners.Contains(s.LearnerId) && s.Live && s.FromDay <= today && s.ToDay >= recent
            orderby l.Name, s.Position
            select new Choice(s.Id, l.Id, l.Name, s.Discipline, s.Place, s.Format, s.CoTreatment,
                db.Assignments.Any(a => a.AgencyId == agency && a.ServiceId == s.Id && a.PersonId == caller.PersonId && a.Live
                    && a.FromDay <= today && a.ToDay >= today))).ToListAsync(stop);
        return [.. services.OrderByDescending(s => s.IsMine)];
    }
}
