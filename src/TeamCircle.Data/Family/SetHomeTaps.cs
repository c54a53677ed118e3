using Microsoft.EntityFrameworkCore;
using TeamCircle.Core;
using TeamCircle.Core.Family;
using TeamCircle.Core.People;
using TeamCircle.Data.Calendar;
using TeamCircle.Data.Devices;

namespace TeamCircle.Data.Family;

/// <summary>Switches on or off that families may say on their page what was practised at home. Off to begin with; it needs a reason. Who of them may is for each learner's case manager to say.</summary>
public sealed class SetHomeTaps(Portal portal)
{
    public sealed record Input
    {
        public bool On { get; init; }
        public string? Why { get; init; }

        /// <summary>What the form began on.</summary>
        public int Version { get; init; }
    }

    public sealed record Saved(bool On);

    /// <summary>What holds now.</summary>
    public Task<Input> ReadAsync(Scope scope, CancellationToken stop = default) => portal.ReadAsync(scope, db => db.Agencies.Where(a => a.Id == scope.AgencyId)
        .Select(a => new Input { On = a.HomeTaps, Why = a.HomeTapsWhy, Version = a.Version }).SingleAsync(stop), stop);

    public Task<Outcome<Saved>> RunAsync(Caller caller, Guid operation, Input input, CancellationToken stop = default) =>
        portal.WriteSettingsAsync(caller, "what families may do", Operation.Of(operation, nameof(SetHomeTaps), input), db => WorkAsync(db, caller, input, stop), stop);

    private static async Task<Outcome<Saved>> WorkAsync(PortalDb db, Caller caller, Input input, CancellationToken stop)
    {
        if (string.IsNullOrWhiteSpace(input.Why) || input.Why.Trim().Length > RemarkRules.LongestWords)
            return Outcome<Saved>.Refused(nameof(input.Why), "Say why.");
        var row = await db.Agencies.SingleAsync(a => a.Id == caller.AgencyId, stop);
        db.BeganOn(row, input.Version);
        (row.HomeTaps, row.HomeTapsWhy) = (input.On, input.Why.Trim());
        return Outcome<Saved>.Of(new(input.On));
    }
}
