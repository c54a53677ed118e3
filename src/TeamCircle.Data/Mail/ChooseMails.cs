using System.ComponentModel.DataAnnotations;
using Microsoft.EntityFrameworkCore;
using TeamCircle.Core;
using TeamCircle.Core.Mail;
using TeamCircle.Core.People;
using TeamCircle.Data.Devices;

namespace TeamCircle.Data.Mail;

/// <summary>Chooses which mails one gets, and when.</summary>
public sealed class ChooseMails(Portal portal)
{
    public sealed record Input
    {
        /// <summary>What the form began on; 0 where nothing was chosen yet.</summary>
        public int Version { get; init; }

        // Of the kinds only those count that the person's roles give; the others stay as they were.
        public bool VisitsAndMinutes { get; init; }
        public bool WaitingForYourDecision { get; init; }
        public bool NewSummary { get; init; }
        public bool VisitChanged { get; init; }

        /// <summary>Days of digests; these and the hour count for who gets digests only.</summary>
        public IsoDayOfWeek[] Days { get; init; } = [];
        public LocalTime? At { get; init; }
        public LocalTime? QuietFrom { get; init; }
        public LocalTime? QuietUntil { get; init; }

        /// <summary>A name of the tz database; empty: the agency's.</summary>
        [StringLength(60)]
        public string? TimeZone { get; init; }

        /// <summary>Counts for families only.</summary>
        [EnumDataType(typeof(MailLanguage))]
        public MailLanguage Language { get; init; }
    }

    public sealed record Saved(int Person);

    public Task<Outcome<Saved>> RunAsync(Caller caller, Guid operation, Input input, CancellationToken stop = default) => portal.WriteAsync(
        Scope.Of(caller), Operation.Of(operation, nameof(ChooseMails), input), db => WorkAsync(db, caller, input, stop), stop);

    private static async Task<Outcome<Saved>> WorkAsync(PortalDb db, Caller caller, Input input, CancellationToken stop)
    {
        var kinds = MailKinds.For(caller.Roles);
        Problem[] problems = [.. Check(input, kinds.Any(MailKinds.IsDigest))];
        if (problems.Length > 0)
            return Outcome<Saved>.Refused(problems);
        var row = await OfAsync(db, caller.AgencyId, caller.PersonId, stop);
        if (input.Version > 0)
            db.BeganOn(row, input.Version);
        row.TimeZone = string.IsNullOrWhiteSpace(input.TimeZone) ? null : input.TimeZone;
        (row.QuietFrom, row.QuietUntil) = (input.QuietFrom!.Value, input.QuietUntil!.Value);
        TakeKinds(row, input, kinds);
        return Outcome<Saved>.Of(new(caller.PersonId));
    }

    private static void TakeKinds(MailChoiceRow row, Input input, IReadOnlyList<MailKind> kinds)
    {
        bool Chosen(MailKind kind, bool typed, bool before) => kinds.Contains(kind) ? typed : before;
        row.VisitsAndMinutes = Chosen(MailKind.VisitsAndMinutes, input.VisitsAndMinutes, row.VisitsAndMinutes);
        row.WaitingForYourDecision = Chosen(MailKind.WaitingForYourDecision, input.WaitingForYourDecision, row.WaitingForYourDecision);
        row.NewSummary = Chosen(MailKind.NewSummary, input.NewSummary, row.NewSummary);
        row.VisitChanged = Chosen(MailKind.VisitChanged, input.VisitChanged, row.VisitChanged);
        if (kinds.Any(MailKinds.IsForFamily))
            row.Language = input.Language;
        if (kinds.Any(MailKinds.IsDigest))
            (row.Days, row.At) = (input.Days.Aggregate(0, (days, day) => days | (1 << ((int)day - 1))), input.At!.Value);
    }

    /// <summary>A person's row, with what holds by default where it is new.</summary>
    internal static async Task<MailChoiceRow> OfAsync(PortalDb db, int agency, int person, CancellationToken stop)
    {
        if (await db.MailChoices.SingleOrDefaultAsync(c => c.AgencyId == agency && c.PersonId == person, stop) is { } row)
            return row;
        row = new() { AgencyId = agency, PersonId = person };
        db.Add(row);
        return row;
    }

    private static IEnumerable<Problem> Check(Input input, bool getsDigests)
    {
        if (getsDigests && input.At is null)
            yield return new(nameof(input.At), "Choose the hour.");
        if (input.QuietFrom is null)
            yield return new(nameof(input.QuietFrom), "Choose when the quiet hours begin.");
        if (input.QuietUntil is null)
            yield return new(nameof(input.QuietUntil), "Choose when the quiet hours end.");
        if (input.Days.Any(d => d is < IsoDayOfWeek.Monday or > IsoDayOfWeek.Sunday))
            yield return new(nameof(input.Days), "Choose days of the week.");
        if (!string.IsNullOrWhiteSpace(input.TimeZone) && DateTimeZoneProviders.Tzdb.GetZoneOrNull(input.TimeZone) is null)
            yield return new(nameof(input.TimeZone), "Choose a zone of the list.");
    }
}
