using System.Globalization;
using Microsoft.EntityFrameworkCore;
using TeamCircle.Core;
using TeamCircle.Core.People;
using TeamCircle.Core.Rights;
using TeamCircle.Data.Devices;

namespace TeamCircle.Data.Rights;

/// <summary>Puts a parent's statement beside what it is about (34 CFR 300.620(b)): from then on it is shown wherever that is shown. It is never changed.</summary>
public sealed class AddStatement(Portal portal, TimeProvider clock)
{
    public sealed record Input
    {
        public int Learner { get; init; }

        /// <summary>The request to amend that it follows.</summary>
        public int Request { get; init; }

        /// <summary>What it stands beside, as <see cref="StatementPlace.Value"/> gives it.</summary>
        public string? Place { get; init; }
        public string? Words { get; init; }
        public string? GivenBy { get; init; }
        public LocalDate? GivenOn { get; init; }
    }

    public sealed record Saved(int Statement);

    public Task<Outcome<Saved>> RunAsync(Caller caller, Guid operation, Input input, CancellationToken stop = default) => portal.WriteAsync(
        Scope.OfLearner(caller, input.Learner), Operation.Of(operation, nameof(AddStatement), input), db => WorkAsync(db, caller, input, stop), stop);

    private async Task<Outcome<Saved>> WorkAsync(PortalDb db, Caller caller, Input input, CancellationToken stop)
    {
        if (await ReadRequests.FindAsync(db, caller, input.Learner, input.Request, stop) is not { } request)
            return Outcome<Saved>.Refused(Problem.NotFound);
        if (request.Kind != RequestKind.Amend)
            return Outcome<Saved>.Refused("", "A statement belongs to a request to amend.");
        List<Problem> problems = [.. RequestRules.CheckStatement(input.Words, input.GivenBy, input.GivenOn, caller.Today)];
        var place = StatementPlace.Read(input.Place);
        if (place is null || !await IsThereAsync(db, caller.AgencyId, input.Learner, place, stop))
            problems.Add(new(nameof(input.Place), "Choose what it stands beside."));
        if (problems.Count > 0)
            return Outcome<Saved>.Refused(problems);
        var row = new ParentStatementRow
        {
            AgencyId = caller.AgencyId,
            LearnerId = input.Learner,
            RequestId = input.Request,
            About = place!.About,
            VisitId = place.Visit,
            ProbeId = place.Probe,
            ReportId = place.Report,
            Words = input.Words!.Trim(),
            GivenBy = input.GivenBy!.Trim(),
            GivenOn = input.GivenOn!.Value,
            EnteredBy = caller.PersonId,
            EnteredAt = Instant.FromDateTimeOffset(clock.GetUtcNow()),
        };
        db.Add(row);
        await db.SaveChangesAsync(stop);
        return Outcome<Saved>.Of(new(row.Id));
    }

    private static Task<bool> IsThereAsync(PortalDb db, int agency, int learner, StatementPlace place, CancellationToken stop) => place.About switch
    {
        StatementAbout.Visit => db.Visits.AnyAsync(v => v.AgencyId == agency && v.LearnerId == learner && v.Id == place.Visit, stop),
        StatementAbout.Probe => db.Probes.AnyAsync(p => p.AgencyId == agency && p.LearnerId == learner && p.Id == place.Probe, stop),
        StatementAbout.Report => db.Reports.IgnoreQueryFilters().AnyAsync(r => r.AgencyId == agency && r.LearnerId == learner && r.Id == place.Report, stop),
        _ => Task.FromResult(true),
    };
}

/// <summary>What a statement stands beside: the record as a whole, or one entry of it.</summary>
public sealed record StatementPlace(StatementAbout About, Guid? Visit = null, Guid? Probe = null, int? Report = null)
{
    /// <summary>As a form sends it: Record, Visit:0190..., Report:12.</summary>
    public string Value => About switch
    {
        StatementAbout.Visit => $"{About}:{Visit}",
        StatementAbout.Probe => $"{About}:{Probe}",
        StatementAbout.Report => string.Create(CultureInfo.InvariantCulture, $"{About}:{Report}"),
        _ => $"{About}",
    };

    /// <summary>Null for anything that <see cref="Value"/> does not make.</summary>
    public static StatementPlace? Read(string? value)
    {
        var parts = (value ?? "").Split(':');
        var id = parts.Length == 2 ? parts[1] : "";
        return parts[0] switch
        {
            nameof(StatementAbout.Record) when parts.Length == 1 => new(StatementAbout.Record),
            nameof(StatementAbout.Visit) when Guid.TryParse(id, out var visit) => new(StatementAbout.Visit, Visit: visit),
            nameof(StatementAbout.Probe) when Guid.TryParse(id, out var probe) => new(StatementAbout.Probe, Probe: probe),
            nameof(StatementAbout.Report) when int.TryParse(id, NumberStyles.None, CultureInfo.InvariantCulture, out var report) => new(StatementAbout.Report, Report: report),
            _ => null,
        };
    }
}
