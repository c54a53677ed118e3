using NodaTime;
using TeamCircle.Data.Commitments;
using TeamCircle.Testing;
using TeamCircle.Testing.Postgres;

namespace TeamCircle.Data.Tests.Commitments;

/// <summary>The whole agency's reading of one period against the reading of every row.</summary>
public sealed class AgencyReadingTests(TestDatabase database) : IClassFixture<TestDatabase>
{
    [Theory]
    [InlineData(0)]
    [InlineData(1)]
    public async Task Reading_what_a_period_needs_leads_to_the_same_balances_as_reading_all(int run)
    {
        var seed = Random.Shared.Next();
        await using var agency = await TestAgency.CreateAsync(database, $"YEAR{run}");
        await RandomYear.WriteAsync(agency, seed, learners: 8);
        var read = agency.Get<ReadAudit>();
        var learners = (await AuditAsync(agency.WholeAgency, 0, new(2026, 9, 1))).Names.Learners.Keys.ToArray();

        for (var period = 0; period < 4; period++)
        {
            foreach (var asOf in new LocalDate[] { new(2026, 9, 30), new(2026, 12, 10), new(2027, 2, 3), new(2027, 4, 20), new(2027, 7, 20) })
            {
                var all = await AuditAsync(agency.Person(agency.Terminal, learners), period, asOf);
                var needed = await AuditAsync(agency.WholeAgency, period, asOf);
                for (var i = 0; i < all.Lines.Count; i++)
                    Assert.True(all.Lines[i].Balance == needed.Lines[i].Balance, $"seed {seed}, {all.Period.Name} as of {asOf}, {all.Lines[i].Line.Code}:\n{all.Lines[i].Balance}\n{needed.Lines[i].Balance}");
                Assert.True(all.Checks.Lines.SequenceEqual(needed.Checks.Lines), $"seed {seed}, {all.Period.Name} as of {asOf}, to check: {all.Checks.Lines.Count} and {needed.Checks.Lines.Count}");
                Assert.Equal(all.Providers.Select(p => (p.PersonId, p.Standing, p.GaveMinutes, p.GaveProbes)), needed.Providers.Select(p => (p.PersonId, p.Standing, p.GaveMinutes, p.GaveProbes)));
            }
        }

        async Task<Audit> AuditAsync(Scope scope, int period, LocalDate asOf) =>
            (await read.RunAsync(scope, (await read.PeriodsAsync(scope))[period].Id, asOf))!;
    }
}
