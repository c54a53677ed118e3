using System.Data;
using System.Text.Json;
using Microsoft.EntityFrameworkCore;
using Microsoft.Extensions.Logging;
using TeamCircle.Core;
using TeamCircle.Core.People;

namespace TeamCircle.Data.Devices;

/// <summary>
/// Takes what a device sends, one act after the other, and answers each: stored, set aside for a person, or refused. A repeat gets the first
/// answer, whatever has happened since.
/// </summary>
/// <remarks>An exception means that the database could not be asked: what was answered so far stays done, and the device sends all of it again.</remarks>
public sealed partial class SyncOperations(Portal portal, DeviceActs acts, ILogger<SyncOperations> log)
{
    public const int MostAtOnce = 50;

    /// <summary>How often an act is begun again that met another at the same moment.</summary>
    private const int MostRounds = 4;

    /// <summary>In the order in which they were sent. Null where the device is none of the caller's: nothing was taken.</summary>
    /// <param name="operations">Each as it came; at most <see cref="MostAtOnce"/>.</param>
    public async Task<IReadOnlyList<OperationAnswer>?> RunAsync(Caller caller, Guid device, IReadOnlyList<JsonElement> operations, CancellationToken stop = default)
    {
        var scope = Scope.Of(caller);
        if (!await portal.ReadAsync(scope, db => db.Devices.AnyAsync(d => d.AgencyId == caller.AgencyId && d.PersonId == caller.PersonId && d.Id == device, stop), stop))
            return null;
        var answers = new List<OperationAnswer>(operations.Count);
        foreach (var json in operations.Take(MostAtOnce))
            answers.Add(await TakeAsync(caller, scope, device, json, stop));
        return answers;
    }

    private async Task<OperationAnswer> TakeAsync(Caller caller, Scope scope, Guid device, JsonElement json, CancellationToken stop)
    {
        SentOperation sent;
        DeviceAct act;
        try
        {
            sent = SentOperation.Read(json);
            act = acts.Read(sent, device);
        }
        catch (Exception malformed) when (malformed is JsonException or InvalidOperationException) // the second: half a character
        {
            return new(IdOf(json), OperationEnd.Refused, malformed.Message);
        }
        for (var round = 1; ; round++)
        {
            var outcome = await DoAsync(caller, scope, act, stop);
            if (outcome.Value is { } answer)
                return new(sent.Id, OperationEnd.Stored, Answer: answer);
            if (outcome.Problems.Contains(Refusals.SavedOtherwise))
                return new(sent.Id, OperationEnd.Refused, "Other content was sent under the same number before.");
            if (outcome.Problems.Contains(Refusals.SetAsideBefore))
                return new(sent.Id, OperationEnd.SetAside, await WhyBeforeAsync(caller, scope, sent.Id, stop));
            if (outcome.Problems.Contains(Refusals.AtTheSameMoment) && round < MostRounds)
                continue;
            if (await SetAsideAsync(caller, act, sent, device, WhyOf(outcome.Problems), stop) is { } aside)
                return aside;
            if (round == MostRounds)
                throw new TimeoutException("The same act is being sent from several places at once.");
        }
    }

    /// <summary>Runs it as a page does. A fault of ours must not stop what stands behind it in the device's queue: a person looks at it.</summary>
    private async Task<Outcome<object>> DoAsync(Caller caller, Scope scope, DeviceAct act, CancellationToken stop)
    {
        try
        {
            return await portal.WriteAsync(scope, act.Operation, db => act.Work(db, caller, stop), stop);
        }
        catch (Exception fault) when (fault is not OperationCanceledException && !DatabaseAway.Is(fault))
        {
            Fault(fault, act.Kind);
            return Outcome<object>.Refused("", "The portal could not take this in; its operator can see in the log where it failed.");
        }
    }

    /// <summary>Null where somebody took its id meanwhile.</summary>
    private async Task<OperationAnswer?> SetAsideAsync(Caller caller, DeviceAct act, SentOperation sent, Guid device, string why, CancellationToken stop)
    {
        var scope = Scope.Of(caller, "set aside");
        await using var work = await portal.OpenAsync(scope, IsolationLevel.ReadCommitted, act.Operation, stop);
        if (!await act.Operation.BeginAsync(work.Db, scope, stop, OperationState.SetAside))
            return null;
        work.Db.Add(new SetAsideRow
        {
            AgencyId = caller.AgencyId,
            PersonId = caller.PersonId,
            OperationId = sent.Id,
            LearnerId = await LearnerOfAsync(work.Db, act.Subject, stop),
            Kind = act.Kind,
            Body = sent.Body.GetRawText(),
            Made = sent.Made,
            SkewMs = sent.SkewMs,
            DeviceId = device,
            Why = why,
        });
        await work.Db.SaveChangesAsync(stop);
        await work.CommitAsync(CancellationToken.None); // one that has begun is not given up, whoever stops waiting for it
        return new(sent.Id, OperationEnd.SetAside, why);
    }

    private static Task<int?> LearnerOfAsync(PortalDb db, ActSubject about, CancellationToken stop) => db.Database
        .SqlQuery<int?>($"select portal.learner_of_device_body({about.Visit}, {about.Goal}, {about.Routine}, {about.Service}, {about.Learner}) as \"Value\"").SingleAsync(stop);

    private Task<string> WhyBeforeAsync(Caller caller, Scope scope, Guid id, CancellationToken stop) => portal.ReadAsync(scope, db => db.SetAsides
        .Where(s => s.AgencyId == caller.AgencyId && s.PersonId == caller.PersonId && s.OperationId == id).Select(s => s.Why).SingleAsync(stop), stop);

    internal static readonly Problem NothingThere =
        new("", "The portal finds nothing that you may record this for: it was removed, or you are not on the learner's team any more.");

    private static string WhyOf(IReadOnlyList<Problem> problems) => problems.Contains(Problem.NotFound)
        ? NothingThere.Message
        : string.Join(' ', problems.Select(p => p.Message).Distinct());

    private static Guid? IdOf(JsonElement json) =>
        json.ValueKind == JsonValueKind.Object && json.TryGetProperty("id", out var id) && id.ValueKind == JsonValueKind.String && id.TryGetGuid(out var guid) ? guid : null;

    [LoggerMessage(LogLevel.Error, "An act of the kind {Kind} that a device sent failed; it was set aside")]
    private partial void Fault(Exception fault, OperationKind kind);
}
