using TeamCircle.Core;
using TeamCircle.Core.Calendar;
using TeamCircle.Core.People;
using TeamCircle.Data.Commitments;
using TeamCircle.Data.Devices;

namespace TeamCircle.Data.Calendar;

/// <summary>Enters the federal holidays that a person ticked as published closures.</summary>
public sealed class AddHolidays(Portal portal)
{
    public sealed class Input
    {
        public List<LocalDate> Days { get; set; } = [];
        public string? Reason { get; set; }
    }

    public sealed record Saved(int Days);

    public Task<Outcome<Saved>> RunAsync(Caller caller, Guid operation, Input input, CancellationToken stop = default) =>
        portal.WriteSettingsAsync(caller, "closures of the calendar", Operation.Of(operation, nameof(AddHolidays), input),
            db => WorkAsync(db, caller, input, stop), stop);

    /// <summary>What saving would do to the statuses; the reason may still be missing.</summary>
    public Task<Outcome<StatusPreview>> PreviewAsync(Caller caller, Input input, CancellationToken stop = default) =>
        portal.PreviewSettingsAsync(caller, "closures of the calendar",
            db => WorkAsync(db, caller, new() { Days = input.Days, Reason = "a look ahead" }, stop), stop);

    private static async Task<Outcome<Saved>> WorkAsync(PortalDb db, Caller caller, Input input, CancellationToken stop)
    {
        var ticked = await TickedAsync(db, caller.AgencyId, input, stop);
        if (ticked.Value is not { } days)
            return Outcome<Saved>.Refused(ticked.Problems);
        return await AddClosure.StoreAsync(db, caller, days, input.Reason!, stop) is { } closed
            ? Outcome<Saved>.Refused(closed)
            : Outcome<Saved>.Of(new(days.Count));
    }

    /// <summary>The ticked days under the holidays' own names: names from the browser are not taken.</summary>
    internal static async Task<Outcome<IReadOnlyList<NewClosure>>> TickedAsync(PortalDb db, int agency, Input input, CancellationToken stop)
    {
        var offered = await OfferHolidays.FindAsync(db, agency, stop);
        var days = input.Days.Distinct().ToList();
        var problems = new List<Problem>();
        if (days.Count == 0)
            problems.Add(new("Days", "Tick at least one day."));
        if (days.Exists(day => !offered.Any(h => h.OnDay == day)))
            problems.Add(new("Days", "One of these days is no longer offered. Look at the list again."));
        if (string.IsNullOrWhiteSpace(input.Reason))
            problems.Add(new("Reason", "Say why the calendar changes."));
        return problems.Count > 0
            ? Outcome<IReadOnlyList<NewClosure>>.Refused(problems)
            : Outcome<IReadOnlyList<NewClosure>>.Of(
                [.. offered.Where(h => days.Contains(h.OnDay)).Select(h => new NewClosure(h.OnDay, h.Name, ClosureKind.Published))]);
    }
}
