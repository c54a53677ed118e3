using System.ComponentModel.DataAnnotations;
using TeamCircle.Core;
using TeamCircle.Core.People;
using TeamCircle.Core.Sessions;
using TeamCircle.Data.Devices;

namespace TeamCircle.Data.Sessions;

/// <summary>Sends an assistant's entry back with a word instead of countersigning it: the assistant corrects it, and it waits again.</summary>
public sealed class SendBack(Portal portal)
{
    public sealed record Input
    {
        public Guid Session { get; init; }

        [StringLength(CountersignRules.LongestWord)]
        public string? Why { get; init; }
    }

    public sealed record Saved(Guid Visit);

    /// <summary>Refused as <see cref="Countersign"/> is.</summary>
    public Task<Outcome<Saved>> RunAsync(Caller caller, Guid operation, Input input, CancellationToken stop = default) =>
        portal.WriteAsync(Scope.Of(caller), Operation.Of(operation, nameof(SendBack), input), db => WorkAsync(db, caller, input, stop), stop);

    private static async Task<Outcome<Saved>> WorkAsync(PortalDb db, Caller caller, Input input, CancellationToken stop)
    {
        var found = await AssistantsEntry.LockAsync(db, caller, input.Session, stop);
        if (found.Value is not { } session)
            return Outcome<Saved>.Refused(found.Problems);
        if (CountersignRules.CheckWord(input.Why) is { } problem)
            return Outcome<Saved>.Refused([problem]);
        session.SentBackWhy = input.Why!.Trim();
        return Outcome<Saved>.Of(new(session.VisitId));
    }
}
