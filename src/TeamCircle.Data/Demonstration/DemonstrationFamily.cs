using Microsoft.EntityFrameworkCore;
using TeamCircle.Core;
using TeamCircle.Core.Family;
using TeamCircle.Core.People;
using TeamCircle.Core.Rights;
using TeamCircle.Data.Family;
using TeamCircle.Data.People;
using TeamCircle.Data.Rights;
using static TeamCircle.Data.Demonstration.Demonstrated;
using static TeamCircle.Data.Demonstration.DemonstrationFiles;

namespace TeamCircle.Data.Demonstration;

/// <summary>What Wren's mother reads and says: the summary of the first period in both languages, a remark, a request to see the record that was met.</summary>
internal sealed class DemonstrationFamily(Portal portal, ReadCaller callers, Scope scope, TimeProvider clock)
{
    private static readonly (string Goal, string English, string Spanish)[] Plain =
    [
        ("TF07-LOOKS", "Wren finds a thing with her eyes and stays with it.", "Wren encuentra una cosa con los ojos y la sigue mirando."),
        ("TF07-PRESSES", "Wren presses the switch to start the water.", "Wren aprieta el pulsador para que salga el agua."),
        ("TF07-HEAD", "Wren holds her head up in her chair.", "Wren mantiene la cabeza erguida en su silla."),
        ("TF07-MORE", "Wren asks for more.", "Wren pide más."),
    ];

    private static readonly Both Hers = new(
        "When the pump stopped, Wren waited, looked at Bram and laughed. Then she pressed again.\nNobody had asked her to.",
        "Cuando se paró la bomba, Wren esperó, miró a Bram y se rio. Luego volvió a apretar.\nNadie se lo había pedido.");

    public async Task AddAsync(LocalDate today, CancellationToken stop)
    {
        var (marisol, learner, first, last) = await portal.ReadAsync(scope, async db =>
        {
            var person = await db.People.Where(p => p.AgencyId == scope.AgencyId && p.Email == Marisol).Select(p => p.Id).SingleAsync(stop);
            var wren = await db.Learners.Where(l => l.AgencyId == scope.AgencyId && l.Code == "TF07").Select(l => l.Id).SingleAsync(stop);
            var period = await db.Periods.Where(p => p.AgencyId == scope.AgencyId).OrderBy(p => p.StartDay).FirstAsync(stop);
            return (person, wren, period.StartDay, period.EndDay);
        }, stop);
        var caller = (await callers.RunAsync(scope.AgencyId, marisol, stop))!;
        await PlainAsync(caller, learner, stop);
        await PublishAsync(caller, learner, first, last, stop);
        Must(await new EnterRemark(portal, clock).RunAsync(caller, Guid.CreateVersion7(), new()
        {
            Learner = learner,
            Kind = RemarkKind.Signal,
            Words = "When she has had enough she turns to the window now. She did not do that before the summer.",
            SaidBy = "Ines Belmares, her mother",
            SaidOn = today.PlusDays(-3),
        }, stop));
        await RequestAsync(caller, learner, today, stop);
    }

    private async Task PlainAsync(Caller caller, int learner, CancellationToken stop)
    {
        var goals = await portal.ReadAsync(scope, db => db.Goals.Where(g => g.AgencyId == scope.AgencyId && g.LearnerId == learner).ToDictionaryAsync(g => g.Code, g => (g.Id, g.Version), stop), stop);
        foreach (var (code, english, spanish) in Plain)
        {
            if (goals.TryGetValue(code, out var goal))
                Must(await new WritePlainWords(portal).RunAsync(caller, Guid.CreateVersion7(), new() { Goal = goal.Id, Version = goal.Version, English = english, Spanish = spanish }, stop));
        }
    }

    private async Task PublishAsync(Caller caller, int learner, LocalDate first, LocalDate last, CancellationToken stop)
    {
        var summary = Must(await new BeginSummary(portal, clock).RunAsync(caller, Guid.CreateVersion7(), new() { Learner = learner, From = first, To = last }, stop)).Summary;
        var draft = (await new ReadSummaries(portal).OneAsync(caller, Scope.Of(caller), learner, summary, stop))!;
        var typed = WriteSummary.Input.Of(learner, summary, draft.Version, draft.Content with { Hers = Hers, SeenBy = "Bram Nakamura" });
        Must(await new WriteSummary(portal).RunAsync(caller, Guid.CreateVersion7(), typed, stop));
        Must(await new PublishSummary(portal, clock).RunAsync(caller, Guid.CreateVersion7(), new() { Learner = learner, Summary = summary, Version = draft.Version + 1 }, stop));
    }

    private async Task RequestAsync(Caller caller, int learner, LocalDate today, CancellationToken stop)
    {
        var request = Must(await new ReceiveRequest(portal, clock).RunAsync(caller, Guid.CreateVersion7(), new()
        {
            Learner = learner,
            Kind = RequestKind.See,
            ReceivedOn = today.PlusDays(-20),
            AskedBy = "Ines Belmares",
            Words = "I would like to see what is written about the missed visits.",
        }, stop)).Request;
        Must(await new AnswerRequest(portal).RunAsync(caller, Guid.CreateVersion7(), new()
        {
            Learner = learner,
            Request = request,
            Version = 1,
            Answer = RequestAnswer.Shown,
            AnsweredOn = today.PlusDays(-14),
            Words = "We went through the visits of the autumn together, and through who had looked at the record.",
        }, stop));
    }
}
