using TeamCircle.Testing.Postgres;
using TeamCircle.Web.Tests.Access;

namespace TeamCircle.Web.Tests.Startup;

/// <summary>The demonstration beside a portal with real records: entered by one command, left by Ctrl+C, and neither leaves a trace in the other.</summary>
public sealed class DemonstrationApartTests(TeamPortal portal) : IClassFixture<TeamPortal>
{
    [Fact]
    public async Task Demonstration_entered_and_left_changes_no_row_of_the_agency_and_leaves_no_file()
    {
        var data = ScratchFolder.Make();
        await File.WriteAllTextAsync(Path.Combine(data, "seal.key"), "the real one");
        var before = await TableSums.ReadAsync(portal.Database);

        // The real portal's own settings stand in the environment, and with the most rights that they could have.
        using (var demonstration = PortalProcess.Start(data, connectionString: portal.Database.ConnectionString(), command: "demonstration", settings: new Dictionary<string, string>
        {
            ["ConnectionStrings__TeamCircleOwner"] = portal.Database.ConnectionString(),
            ["Mail__Host"] = "mail.tallowfern.example",
            ["TEAMCIRCLE_SEAL_KEY"] = Path.Combine(data, "seal.key"),
        }))
        {
            using var browser = new HttpClient(new HttpClientHandler { AllowAutoRedirect = false }) { BaseAddress = await demonstration.AddressAsync() };
            (await browser.SignInAsync("odalys@tallowfern.example")).Dispose();
            Assert.Contains("My visits", await browser.GetStringAsync(new Uri("/", UriKind.Relative)), StringComparison.Ordinal);
            Assert.True(Directory.Exists(Path.Combine(data, "demonstration", "postgres")));
            Assert.Equal(0, await demonstration.StopAsync());
        }

        Assert.Equal(before, await TableSums.ReadAsync(portal.Database));
        Assert.Equal(["seal.key"], Directory.EnumerateFileSystemEntries(data).Select(Path.GetFileName));
        Assert.Equal("the real one", await File.ReadAllTextAsync(Path.Combine(data, "seal.key")));
        Directory.Delete(data, recursive: true);
    }
}
