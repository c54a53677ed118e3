using System.Globalization;
using System.Text.Json;
using Microsoft.EntityFrameworkCore;
using TeamCircle.Core.Import;
using TeamCircle.Core.People;
using TeamCircle.Data.People;

namespace TeamCircle.Data.Import;

/// <summary>One import inside its transaction.</summary>
internal sealed class ImportSession(PortalDb db, TimeProvider clock, ImportFolder.Input input, IProgress<ImportProgress> progress)
{
    private const int Steps = 12;

    private int _step;
    private int _agency;
    private bool _isNew;

    /// <summary>The agency's code, once it is known.</summary>
    public string Code { get; private set; } = "";

    public async Task<ImportResult> RunAsync(Caller? caller, CancellationToken stop)
    {
        Step("Reading the files");
        var (brought, fileProblems) = ReadBrought.Run(input.Files, e => input.Closures?.Contains(e.Uid) ?? true, EventsUntil(clock, input.Today));
        await FindAgencyAsync(caller, brought, stop);
        var zone = await db.Agencies.Where(a => a.Id == _agency).Select(a => a.TimeZone).SingleAsync(stop);
        var realToday = AgencyClock.Today(clock, zone);
        var today = input.Today ?? realToday;
        Step("Checking the rows");
        var (days, refs) = VisitDays.Of(brought.Tables);
        var facts = await new StoredFacts(db, _agency).ReadAsync(today, days, refs, stop);
        var reading = ReadFolder.Run(brought, _isNew ? facts with { Agency = null } : facts);
        reading = reading with { Problems = [.. fileProblems, .. reading.Problems] };
        if (reading.Problems.Count > 0 && (!input.GoodRows || (_isNew && reading.Agency is null)))
            return Answer(brought, reading, null, stored: false);
        var desk = new ImportDesk(db, _agency, reading.Agency?.TimeZone ?? zone, today, LocalDate.Min(today, realToday));
        await StoreAsync(desk, reading, facts, stop);
        reading = reading with { Problems = [.. reading.Problems, .. desk.Problems] };
        var stored = desk.Written > 0 && (reading.Problems.Count == 0 || input.GoodRows);
        var answer = Answer(brought, reading, desk, stored);
        if (stored)
            await RecordAsync(answer, desk, stop);
        return answer;
    }

    private async Task FindAgencyAsync(Caller? caller, Brought brought, CancellationToken stop)
    {
        if (caller is not null)
        {
            _agency = caller.AgencyId;
            Code = await db.Agencies.Where(a => a.Id == _agency).Select(a => a.Code).SingleAsync(stop);
        }
        else
        {
            await NameAgencyAsync(brought, stop);
        }
        // Two imports of one agency would each find the other's rows missing.
        await db.Database.ExecuteSqlAsync($"select pg_advisory_xact_lock(7202612, {_agency}), set_config('app.import', 'running', true)", stop);
    }

    private async Task NameAgencyAsync(Brought brought, CancellationToken stop)
    {
        if (input.AgencyCode is { } code)
        {
            _agency = await db.Database.SqlQuery<int?>($"select portal.agency_id_of({code}) as \"Value\"").SingleAsync(stop) ?? 0;
            Code = code;
        }
        else
        {
            var all = await db.Database.SqlQuery<int>($"select portal.agency_ids() as \"Value\"").ToListAsync(stop);
            if (all.Count > 1)
                throw new ImportFailure("There are several agencies: name one with --agency CODE.");
            _agency = all.FirstOrDefault();
        }
        if (_agency == 0)
            await MakeAgencyAsync(brought, stop);
        await EnterAsync(await TerminalAsync(stop), stop);
        Code = await db.Agencies.Where(a => a.Id == _agency).Select(a => a.Code).SingleAsync(stop);
        if (input.As is not null && !_isNew)
            await EnterAsync(await PersonAsync(input.As, stop), stop);
    }

    /// <remarks>Name and zone are those of agency.json, or, where that cannot be read, stand in until the import is taken back.</remarks>
    private async Task MakeAgencyAsync(Brought brought, CancellationToken stop)
    {
        _isNew = true;
        var agency = brought.Agency is { } text ? ReadFolder.Run(new(text, [], []), new() { Today = default }).Agency : null;
        var name = agency?.Name ?? "New agency";
        if (Code.Length == 0)
            Code = new string([.. name.TakeWhile(char.IsLetterOrDigit)]).ToUpperInvariant();
        _agency = await db.Database.SqlQuery<int>($"select portal.make_agency({Code}, {name}, {agency?.TimeZone ?? "UTC"}) as \"Value\"").SingleAsync(stop);
    }

    private async Task<int> TerminalAsync(CancellationToken stop)
    {
        await EnterAsync(0, stop);
        return await db.PersonRoles.Where(r => r.AgencyId == _agency && r.Role == Role.Terminal).Select(r => r.PersonId).FirstAsync(stop);
    }

    private async Task<int> PersonAsync(string email, CancellationToken stop)
    {
        var people = await db.People.Where(p => p.AgencyId == _agency && p.EndedAt == null).Select(p => new { p.Id, p.Email }).ToListAsync(stop);
        return people.Find(p => string.Equals(p.Email, email, StringComparison.OrdinalIgnoreCase))?.Id
            ?? throw new ImportFailure("Nobody in this agency has the e-mail address that --as names.");
    }

    private async Task EnterAsync(int person, CancellationToken stop)
    {
        var (agency, who) = (_agency.ToString(CultureInfo.InvariantCulture), person.ToString(CultureInfo.InvariantCulture));
        await db.Database.ExecuteSqlAsync($"select set_config('app.agency', {agency}, true), set_config('app.person', {who}, true)", stop);
    }

    private async Task StoreAsync(ImportDesk desk, FolderReading reading, ImportFacts facts, CancellationToken stop)
    {
        await desk.LoadAsync(stop);
        Step("Storing the calendar");
        await new StoreCalendar(desk).RunAsync(reading, stop);
        var people = new StorePeople(desk);
        await StepAsync("Storing people", reading.People, people.PeopleAsync, stop);
        if (input.As is not null && _isNew)
            await EnterAsync(await PersonAsync(input.As, stop), stop);
        await StepAsync("Storing learners", reading.Learners, people.LearnersAsync, stop);
        var services = new StoreServices(desk);
        await StepAsync("Storing services", reading.Services, services.ServicesAsync, stop);
        await StepAsync("Storing goals", reading.Goals, new StoreGoals(desk).RunAsync, stop);
        await StepAsync("Storing assignments", reading.Assignments, services.AssignmentsAsync, stop);
        await StepAsync("Storing balances", reading.Balances, new StoreBalances(desk).RunAsync, stop);
        await StepAsync("Storing visits", reading.Visits, (lines, cancel) => new StoreVisits(desk).RunAsync(lines, facts.Visits, cancel), stop);
        var decisions = new StoreDecisions(desk);
        await StepAsync("Storing decisions", reading.Decisions, decisions.DecisionsAsync, stop);
        await StepAsync("Storing probes", reading.Probes, decisions.ProbesAsync, stop);
    }

    private async Task StepAsync<T>(string step, IReadOnlyList<T> lines, Func<IReadOnlyList<T>, CancellationToken, Task> store, CancellationToken stop)
    {
        Step(step);
        if (lines.Count > 0)
            await store(lines, stop);
    }

    private void Step(string step) => progress.Report(new(step, _step++, Steps));

    /// <summary>One change row for the whole import: that of its own row, with the hashes of its files and their rows.</summary>
    private async Task RecordAsync(ImportResult answer, ImportDesk desk, CancellationToken stop)
    {
        await db.Database.ExecuteSqlAsync($"select set_config('app.import', '', true)", stop);
        var import = new ImportRow
        {
            AgencyId = _agency,
            PersonId = await db.Database.SqlQuery<int>($"select portal.setting_int('app.person') as \"Value\"").SingleAsync(stop),
            Files = JsonSerializer.Serialize(answer.Files, JsonSerializerOptions.Web),
            Stored = answer.Files.Sum(f => f.Added + f.Changed),
            Refused = answer.Files.Sum(f => f.Refused),
        };
        db.Add(import);
        await db.SaveChangesAsync(stop);
        await db.Database.ExecuteSqlAsync($"select set_config('app.import', 'running', true)", stop);
        desk.Additions.ForEach(a => a.ImportId = import.Id);
        db.AddRange(desk.Additions);
        await db.SaveChangesAsync(stop);
    }

    private ImportResult Answer(Brought brought, FolderReading reading, ImportDesk? desk, bool stored)
    {
        var counts = ImportCounts.Of(input.Files, brought, reading, desk);
        Step("Done");
        return new(Code, stored, counts, reading.Problems, reading.Notes,
            [.. reading.Closures.Where(c => brought.Calendars.Any(k => k.File == c.File))],
            RefusedRows.Of(brought.Tables, reading.Problems));
    }

    /// <summary>Events that repeat are unfolded for five years from now.</summary>
    internal static LocalDate EventsUntil(TimeProvider clock, LocalDate? today) => (today ?? AgencyClock.Today(clock, "UTC")).PlusYears(5);
}
