using System.Globalization;
using System.Text.Json;
using Microsoft.EntityFrameworkCore;
using NodaTime;
using TeamCircle.Data.Devices;
using TeamCircle.Data.Sessions;
using TeamCircle.Testing;
using TeamCircle.Testing.Postgres;

namespace TeamCircle.Data.Tests.Devices;

/// <summary>
/// What devices wrote before the newest pages came. form-1.json is written as the pages of form 1 wrote, one operation of each kind; its numbers are put in
/// the place of those that stand in it. It is never written anew: as long as a form is accepted, its sample must be.
/// </summary>
public sealed class FormTests(TestDatabase database) : IClassFixture<TestDatabase>, IAsyncLifetime
{
    private static int _agencies;
    private TestAgency _agency = null!;
    private TestTeam _team = null!;
    private TestPractice _practice = null!;
    private Guid _device;

    public async ValueTask InitializeAsync()
    {
        _agency = await TestAgency.CreateAsync(database, $"FORM{Interlocked.Increment(ref _agencies)}");
        _team = await TestTeam.CreateAsync(_agency);
        _practice = await TestPractice.CreateAsync(_agency, _team);
        _device = await _practice.DeviceAsync(_team, _team.Odalys);
    }

    public ValueTask DisposeAsync() => _agency.DisposeAsync();

    private async Task<IReadOnlyList<OperationAnswer>> SendAsync(params JsonElement[] operations) =>
        (await _agency.Get<SyncOperations>().RunAsync(await _team.CallerAsync(_team.Odalys), _device, operations))!;

    private async Task<JsonElement[]> SampleAsync(Guid visit)
    {
        var text = await File.ReadAllTextAsync(Path.Combine(AppContext.BaseDirectory, "Devices", "form-1.json"), TestContext.Current.CancellationToken);
        foreach (var (number, own) in new[] { ("1000001", _practice.Version.RoutineId), ("1000002", _practice.Version.Id), ("1000003", _team.Gaze.Id), ("1000004", _team.Wren) })
            text = text.Replace(number, own.ToString(CultureInfo.InvariantCulture), StringComparison.Ordinal);
        using var json = JsonDocument.Parse(text.Replace("0199a1b2-0000-7000-8000-000000000a01", $"{visit}", StringComparison.Ordinal));
        return [.. json.RootElement.EnumerateArray().Select(o => o.Clone())];
    }

    [Fact]
    public async Task Operations_of_the_form_before_are_stored_and_the_same_again_is_a_repeat()
    {
        var sample = await SampleAsync((await _team.VisitAsync()).Id);
        Assert.All(sample, o => Assert.Equal(SentOperation.LeastFormat, o.GetProperty("format").GetInt32()));

        Assert.All(await SendAsync(sample), a => Assert.Equal((OperationEnd.Stored, null), (a.End, a.Why)));
        Assert.All(await SendAsync(sample), a => Assert.Equal(OperationEnd.Stored, a.End));

        Assert.Equal((1, 2, 1, 1, 1), await _agency.Portal.ReadAsync(_agency.WholeAgency, async db => (
            await db.Practices.CountAsync(p => p.AgencyId == _agency.Id), await db.Trials.CountAsync(p => p.AgencyId == _agency.Id),
            await db.Sessions.CountAsync(s => s.AgencyId == _agency.Id), await db.Probes.CountAsync(p => p.AgencyId == _agency.Id), await db.Holds.CountAsync(h => h.AgencyId == _agency.Id))));
    }

    [Theory]
    [InlineData(SentOperation.LeastFormat - 1)]
    [InlineData(SentOperation.MostFormat + 1)]
    public async Task Form_that_is_not_known_is_refused_by_name_and_the_device_keeps_it(int form)
    {
        var answer = Assert.Single(await SendAsync(TestPractice.Sent("practice", _practice.Record(), format: form)));

        Assert.Equal(OperationEnd.Refused, answer.End);
        Assert.Contains($"form {form}", answer.Why, StringComparison.Ordinal);
    }

    /// <summary>Taken once: a repeat of what was sent to a portal of then must still be known as one.</summary>
    [Fact]
    public void Fields_that_came_later_change_no_fingerprint_of_what_was_typed_before()
    {
        var typed = new LogSession.Input { Visits = [Guid.Parse("0199a1b2-0000-7000-8000-000000000a01")], Version = 1, Start = "09:00", End = "09:45", OnDay = new LocalDate(2026, 9, 15), Note = "Slow morning" };

        Assert.StartsWith("9441fc51cb67c567e86531bf27742b8f", Convert.ToHexStringLower(Operation.Of(Guid.CreateVersion7(), nameof(LogSession), typed).RequestHash), StringComparison.Ordinal);
    }
}
