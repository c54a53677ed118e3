using System.ComponentModel.DataAnnotations;
using System.Text.Json;
using TeamCircle.Core;
using TeamCircle.Core.People;
using TeamCircle.Core.Practice;
using TeamCircle.Data.Practice;
using TeamCircle.Data.Progress;
using TeamCircle.Data.Routines;
using TeamCircle.Data.Sessions;

namespace TeamCircle.Data.Devices;

/// <summary>One act that a device sent, read: what it is, what it is about, and how it is done.</summary>
/// <param name="Operation">The same as the act has when it is done on a page, so that a repeat is known again.</param>
internal sealed record DeviceAct(OperationKind Kind, Operation Operation, ActSubject Subject, Func<PortalDb, Caller, CancellationToken, Task<Outcome<object>>> Work);

/// <summary>What an act names; one of them leads to the learner.</summary>
internal sealed record ActSubject(Guid? Visit = null, int? Goal = null, int? Routine = null, int? Service = null, int? Learner = null);

/// <summary>What a person adds who enters what was set aside.</summary>
/// <param name="Provider">Whose act it is.</param>
/// <param name="UnderHold">Why a practice is entered though a hold lay on it; null where nobody knows of one.</param>
internal sealed record EnteredByHand(int Provider, string? UnderHold = null);

/// <summary>What a device can send: the acts that pages offer too, each under its own name.</summary>
public sealed class DeviceActs(LogSession logSession, AddProbe addProbe, RecordPractice recordPractice, SetHold setHold)
{
    /// <param name="entering">Where a person enters what was set aside; null where it comes from the device. A person has seen what stands now, so on
    /// which version of a visit it was begun says nothing any more.</param>
    /// <exception cref="JsonException">The kind is unknown, or the body is none of its kind.</exception>
    internal DeviceAct Read(SentOperation sent, Guid? device, EnteredByHand? entering = null) => Words.Find<OperationKind>(sent.Kind) switch
    {
        OperationKind.Practice => Practice(sent, device, entering),
        OperationKind.Visit => Visit(sent, entering?.Provider),
        OperationKind.Probe => Probe(sent, entering?.Provider),
        OperationKind.Hold => Hold(sent),
        _ => throw new JsonException("This portal does not know what kind of act it is. Keep it, and load the newest pages."),
    };

    private DeviceAct Practice(SentOperation sent, Guid? device, EnteredByHand? entering)
    {
        var record = PracticeJson.Read(sent.Body.GetRawText());
        var input = new RecordPractice.Input(record, sent.SkewMs, device, entering?.Provider, entering?.UnderHold);
        return new(OperationKind.Practice, RecordPractice.OperationOf(sent.Id, record), new(record.Visit, Routine: record.Routine),
            async (db, caller, stop) => Any(await recordPractice.InAsync(db, caller, input, stop)));
    }

    private DeviceAct Visit(SentOperation sent, int? provider)
    {
        var input = Typed<LogSession.Input>(sent);
        var act = input with { ProviderId = input.ProviderId ?? provider, Version = provider is null ? input.Version : null };
        Guid? visit = input.Visits.Length > 0 ? input.Visits[0] : null;
        int? service = input.Services.Length > 0 ? input.Services[0] : null;
        return new(OperationKind.Visit, Operation.Of(sent.Id, nameof(LogSession), input), new(visit, Service: service),
            async (db, caller, stop) => Wrong(input) ?? Any(await logSession.InAsync(db, caller, act, stop)));
    }

    private DeviceAct Probe(SentOperation sent, int? provider)
    {
        var input = Typed<AddProbe.Input>(sent);
        var act = input with { ProviderId = input.ProviderId ?? provider };
        return new(OperationKind.Probe, Operation.Of(sent.Id, nameof(AddProbe), input), new(Goal: input.GoalId),
            async (db, caller, stop) => Wrong(input) ?? Any(await addProbe.InAsync(db, caller, act, stop)));
    }

    private DeviceAct Hold(SentOperation sent)
    {
        var input = Typed<SetHold.Input>(sent);
        return new(OperationKind.Hold, Operation.Of(sent.Id, nameof(SetHold), input), new(Routine: input.Routine, Learner: input.Learner),
            async (db, caller, stop) => Wrong(input) ?? Any(await setHold.InAsync(db, caller, input, stop)));
    }

    private static T Typed<T>(SentOperation sent) where T : class => sent.Body.Deserialize<T>(DeviceJson.Options) ?? throw new JsonException("There is nothing in it.");

    /// <summary>What a page would have said of a field before it came to the act itself.</summary>
    private static Outcome<object>? Wrong(object input)
    {
        var found = new List<ValidationResult>();
        return Validator.TryValidateObject(input, new(input), found, validateAllProperties: true)
            ? null
            : Outcome<object>.Refused([.. found.Select(f => new Problem(f.MemberNames.FirstOrDefault() ?? "", f.ErrorMessage ?? "This is too long, or none of the choices."))]);
    }

    /// <summary>As JSON, so that a repeat gets the answer in the same words.</summary>
    private static Outcome<object> Any<T>(Outcome<T> outcome) where T : class =>
        outcome.Value is { } value ? Outcome<object>.Of(JsonSerializer.SerializeToElement(value, DeviceJson.Options)) : Outcome<object>.Refused(outcome.Problems);
}
