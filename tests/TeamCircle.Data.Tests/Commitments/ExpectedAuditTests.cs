using System.Text.Json;
using System.Text.Json.Nodes;
using NodaTime;
using TeamCircle.Data.Commitments;
using TeamCircle.Testing;
using TeamCircle.Testing.Postgres;

namespace TeamCircle.Data.Tests.Commitments;

/// <summary>The demonstration world's first period, entry by entry against the audit worked out by a second program.</summary>
public sealed class ExpectedAuditTests(TestDatabase database) : IClassFixture<TestDatabase>
{
    [Fact]
    public async Task World_audited_as_of_2_October_equals_the_expected_file()
    {
        await using var agency = await TestAgency.CreateAsync(database);
        await SampleWorld.ImportAsync(agency);
        var asOf = new LocalDate(2026, 10, 2);
        var periods = await agency.Get<ReadAudit>().PeriodsAsync(agency.WholeAgency);

        var audit = await agency.Get<ReadAudit>().RunAsync(agency.WholeAgency, periods.Single(p => p.Name == "Period 1").Id, asOf);

        using var stream = new MemoryStream();
        AuditJson.Write(stream, audit!);
        var actual = JsonNode.Parse(stream.ToArray())!;
        var expected = JsonNode.Parse(File.ReadAllText(SampleWorld.File("expected-audit.json")))!;
        Assert.Equal(Text(expected["entries"]!.AsArray()), Text(actual["entries"]!.AsArray()));
    }

    // Order of the fields does not matter, that of the entries does.
    private static string Text(JsonArray entries) => string.Join('\n', entries.Select(
        e => string.Join(' ', e!.AsObject().OrderBy(f => f.Key, StringComparer.Ordinal).Select(f => $"{f.Key}={f.Value?.ToJsonString()}"))));
}
