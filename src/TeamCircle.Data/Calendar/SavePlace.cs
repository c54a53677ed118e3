using System.ComponentModel.DataAnnotations;
using Microsoft.EntityFrameworkCore;
using TeamCircle.Core;
using TeamCircle.Core.Learners;
using TeamCircle.Core.People;
using TeamCircle.Data.Devices;
using TeamCircle.Data.Road;

namespace TeamCircle.Data.Calendar;

/// <summary>Adds a place to the agency's list, changes it, or takes it out.</summary>
public sealed class SavePlace(Portal portal)
{
    public sealed class Input
    {
        /// <summary>Null for a new one.</summary>
        public int? Id { get; set; }
        public int Version { get; set; }

        [StringLength(12)]
        public string? Code { get; set; }

        [StringLength(100)]
        public string? Name { get; set; }

        /// <summary>Where it is; only whoever drives there reads it, behind the sign-in.</summary>
        [StringLength(200)]
        public string? Address { get; set; }

        [EnumDataType(typeof(Place))]
        public Place Kind { get; set; }
        public bool Remove { get; set; }
    }

    public sealed record Saved(int Place);

    public Task<Outcome<Saved>> RunAsync(Caller caller, Guid operation, Input input, CancellationToken stop = default) =>
        portal.WriteSettingsAsync(caller, "the agency's places", Operation.Of(operation, nameof(SavePlace), input),
            db => WorkAsync(db, caller.AgencyId, input, stop), stop);

    private static async Task<Outcome<Saved>> WorkAsync(PortalDb db, int agency, Input input, CancellationToken stop)
    {
        var problems = new List<Problem>();
        if (string.IsNullOrWhiteSpace(input.Code))
            problems.Add(new(nameof(input.Code), "Give a short code without a learner's name: it stands on calendars."));
        if (string.IsNullOrWhiteSpace(input.Name))
            problems.Add(new(nameof(input.Name), "Give the place a name."));
        if (problems.Count > 0)
            return Outcome<Saved>.Refused(problems);
        var row = input.Id is { } id ? await db.Places.SingleOrDefaultAsync(p => p.AgencyId == agency && p.Id == id && p.Live, stop)
            : new PlaceRow { AgencyId = agency, Code = "", Name = "" };
        if (row is null)
            return Outcome<Saved>.Refused(Problem.NotFound);
        if (input.Remove && await IsUsedAsync(db, row, stop))
            return Outcome<Saved>.Refused("", "Learners or visits are at this place, so it can't be taken out.");
        if (input.Id is null)
            db.Add(row);
        else
            db.BeganOn(row, input.Version);
        (row.Code, row.Name, row.Kind, row.Live) = (input.Code!.Trim(), input.Name!.Trim(), input.Kind, !input.Remove);
        await db.SaveChangesAsync(stop);
        await SetAddressAsync(db, row, input.Address?.Trim() ?? "", stop);
        return Outcome<Saved>.Of(new(row.Id));
    }

    private static async Task SetAddressAsync(PortalDb db, PlaceRow row, string address, CancellationToken stop)
    {
        if (await db.PlaceAddresses.SingleOrDefaultAsync(a => a.AgencyId == row.AgencyId && a.PlaceId == row.Id, stop) is { } stands)
            stands.Address = address;
        else if (address.Length > 0)
            db.Add(new PlaceAddressRow { AgencyId = row.AgencyId, PlaceId = row.Id, Address = address });
    }

    private static async Task<bool> IsUsedAsync(PortalDb db, PlaceRow row, CancellationToken stop) =>
        await db.LearnerPlaces.AnyAsync(p => p.AgencyId == row.AgencyId && p.PlaceId == row.Id, stop)
        || await db.Visits.AnyAsync(v => v.AgencyId == row.AgencyId && v.PlaceId == row.Id && v.Live && v.State == VisitState.Planned, stop)
        || await db.Series.AnyAsync(s => s.AgencyId == row.AgencyId && s.PlaceId == row.Id && s.Live, stop);
}
