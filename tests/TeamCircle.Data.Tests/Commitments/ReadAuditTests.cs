using Microsoft.EntityFrameworkCore;
using NodaTime;
using TeamCircle.Core.Commitments;
using TeamCircle.Core.Learners;
using TeamCircle.Data.Commitments;
using TeamCircle.Testing;
using TeamCircle.Testing.Postgres;

namespace TeamCircle.Data.Tests.Commitments;

/// <summary>The audit around its figures: providers, filters, what is to check, the walls, the sheet.</summary>
public sealed class ReadAuditTests(TestDatabase database) : IClassFixture<TestDatabase>, IAsyncLifetime
{
    private TestAgency _agency = null!;

    public async ValueTask InitializeAsync()
    {
        _agency = await TestAgency.CreateAsync(database, $"AUDIT{Guid.CreateVersion7():N}"[..20]);
        await SampleWorld.ImportAsync(_agency);
    }

    public ValueTask DisposeAsync() => _agency.DisposeAsync();

    [Fact]
    public async Task Person_audits_only_the_learners_in_reach()
    {
        var wren = await IdAsync("WREN");
        var audit = await AuditAsync(_agency.Person(_agency.Terminal, wren));
        var whole = await AuditAsync(_agency.WholeAgency);

        Assert.All(audit.Lines, l => Assert.Equal(wren, l.Line.LearnerId));
        Assert.Equal(whole.Lines.Where(l => l.Line.LearnerId == wren).Select(l => l.Balance), audit.Lines.Select(l => l.Balance));
    }

    [Fact]
    public async Task Provider_is_judged_over_own_lines_beside_what_they_gave()
    {
        var audit = await AuditAsync(_agency.WholeAgency);
        var priya = audit.Providers.Single(p => audit.Names.Email(p.PersonId) == "priya@tallowfern.example");

        Assert.Equal(["JONAH-PT", "JONAH-PT-G1", "WREN-PT", "WREN-PT-G1"], priya.Lines.Select(l => audit.Lines[l.Line].Line.Code).Order());
        Assert.Equal(Status.OnPace, priya.Standing.Services);
        Assert.Equal(Status.Behind, priya.Standing.Probes);
        Assert.False(priya.Standing.BothMet);
        Assert.Equal(183 + 96, priya.GaveMinutes);
        Assert.Equal(4, priya.GaveProbes);
    }

    [Fact]
    public async Task Line_that_changed_hands_is_judged_for_each_over_the_windows_that_closed_while_they_were_named()
    {
        var service = await _agency.Portal.ReadAsync(_agency.WholeAgency, db => db.Services.SingleAsync(s => s.Code == "WREN-OT" && s.AgencyId == _agency.Id));
        await HandOverAsync(service.Id, "priya@tallowfern.example", new(2026, 9, 15));

        var audit = await AuditAsync(_agency.WholeAgency);

        var shares = audit.Providers.SelectMany(p => p.Lines.Select(l => (Email: audit.Names.Email(p.PersonId), Share: l)))
            .Where(s => audit.Lines[s.Share.Line].Line.Code == "WREN-OT").OrderBy(s => s.Email).ToList();
        Assert.Equal(["bram@tallowfern.example", "priya@tallowfern.example"], shares.Select(s => s.Email));
        Assert.All(shares, s => Assert.True(s.Share.IsShared));
        Assert.Equal(137, shares.Sum(s => s.Share.Balance.Minutes.Owed));
        Assert.True(shares[0].Share.Balance.Minutes.Owed > 0 && shares[1].Share.Balance.Minutes.Owed > 0);
        Assert.Equal(0, shares[1].Share.Gave);
    }

    [Fact]
    public async Task Line_with_nobody_assigned_stands_first_and_filters_narrow()
    {
        await EndAssignmentAsync("SEFA-AT", new(2026, 9, 30));
        var audit = await AuditAsync(_agency.WholeAgency);

        var first = audit.Lines[new AuditFilter().Apply(audit)[0].Line];
        Assert.Equal("SEFA-AT", first.Line.Code);
        Assert.True(first.IsUnassigned);
        Assert.Equal(["JONAH-PT", "WREN-OT"], Codes(audit, new AuditFilter { Status = Status.Met }));
        Assert.Equal(["WREN-V", "WREN-V-G1"], Codes(audit, new AuditFilter { Discipline = Discipline.Vision, Learner = await IdAsync("WREN") }));
    }

    [Fact]
    public async Task Things_to_check_are_listed_by_kind()
    {
        await using (var work = await _agency.Portal.OpenAsync(_agency.WholeAgency, System.Data.IsolationLevel.ReadCommitted))
        {
            await work.Db.Sessions.Where(s => s.OnDay == new LocalDate(2026, 8, 18)).ExecuteUpdateAsync(s => s.SetProperty(r => r.Place, Place.School));
            await work.Db.Visits.Where(v => v.OnDay == new LocalDate(2026, 10, 5)).ExecuteUpdateAsync(s => s.SetProperty(r => r.OnDay, new LocalDate(2026, 9, 30)));
            await work.CommitAsync();
        }

        var audit = await AuditAsync(_agency.WholeAgency);

        Assert.Equal(["JONAH-OT 1", "SEFA-AT 1", "WREN-OT 1"], Checks(audit, CheckKind.OtherPlace));
        Assert.Equal(["JONAH-V 1", "SEFA-V 1", "WREN-V 1"], Checks(audit, CheckKind.NeverLogged));
    }

    [Fact]
    public async Task Undecided_is_grouped_by_the_age_of_its_oldest_window()
    {
        var audit = await AuditAsync(_agency.WholeAgency);

        // Monthly lines lack since 30 September, the weekly probes since the week that closed on 11 September.
        var groups = UndecidedByAge.Of(audit).ToDictionary(g => g.Name, g => g.Lines.Select(l => audit.Lines[l].Line.Code).ToList());
        Assert.Contains("WREN-V", groups["up to two weeks"]);
        Assert.Contains("WREN-V-G1", groups["two to four weeks"]);
        Assert.DoesNotContain("WREN-OT", groups.Values.SelectMany(c => c));
    }

    [Fact]
    public async Task Sheet_marks_text_that_a_spreadsheet_would_run()
    {
        await using (var work = await _agency.Portal.OpenAsync(_agency.WholeAgency, System.Data.IsolationLevel.ReadCommitted))
        {
            await work.Db.Learners.Where(l => l.Code == "WREN").ExecuteUpdateAsync(s => s.SetProperty(r => r.Name, "=SUM(A1:A9)"));
            await work.CommitAsync();
        }
        var audit = await AuditAsync(_agency.WholeAgency);

        using var text = new StringWriter();
        AuditSheet.WriteCsv(text, audit, audit.Lines);

        var rows = text.ToString().Split("\r\n", StringSplitOptions.RemoveEmptyEntries);
        Assert.Equal(audit.Lines.Count + 1, rows.Length);
        Assert.StartsWith("WREN,'=SUM(A1:A9),WREN-V,vision,odalys@tallowfern.example,minutes,183,123,0,60,", rows[1], StringComparison.Ordinal);
    }

    private static IEnumerable<string> Codes(Audit audit, AuditFilter filter) =>
        filter.Apply(audit).Select(r => audit.Lines[r.Line].Line.Code).Order();

    private static IEnumerable<string> Checks(Audit audit, CheckKind kind) =>
        audit.Checks.Lines.Where(c => c.Kind == kind).Select(c => $"{audit.Lines[c.Line].Line.Code} {c.Count}").Order();

    private async Task<Audit> AuditAsync(Scope scope)
    {
        var read = _agency.Get<ReadAudit>();
        var period = (await read.PeriodsAsync(scope)).Single(p => p.Name == "Period 1");
        return (await read.RunAsync(scope, period.Id, new(2026, 10, 2)))!;
    }

    private Task<int> IdAsync(string learner) => _agency.Portal.ReadAsync(
        _agency.WholeAgency, db => db.Learners.Where(l => l.AgencyId == _agency.Id && l.Code == learner).Select(l => l.Id).SingleAsync());

    private async Task HandOverAsync(int service, string email, LocalDate day)
    {
        await using var work = await _agency.Portal.OpenAsync(_agency.WholeAgency, System.Data.IsolationLevel.ReadCommitted);
        var row = await work.Db.Assignments.SingleAsync(a => a.ServiceId == service);
        var person = await work.Db.People.SingleAsync(p => p.Email == email);
        work.Db.Add(new Data.Learners.AssignmentRow
        {
            AgencyId = row.AgencyId,
            LearnerId = row.LearnerId,
            ServiceId = service,
            PersonId = person.Id,
            FromDay = day,
            ToDay = row.ToDay,
        });
        row.ToDay = day.PlusDays(-1);
        await work.Db.SaveChangesAsync();
        await work.CommitAsync();
    }

    private async Task EndAssignmentAsync(string code, LocalDate last)
    {
        await using var work = await _agency.Portal.OpenAsync(_agency.WholeAgency, System.Data.IsolationLevel.ReadCommitted);
        var service = await work.Db.Services.SingleAsync(s => s.Code == code);
        (await work.Db.Assignments.SingleAsync(a => a.ServiceId == service.Id)).ToDay = last;
        await work.Db.SaveChangesAsync();
        await work.CommitAsync();
    }
}
