using System.Text;
using Microsoft.AspNetCore.Hosting;
using Microsoft.AspNetCore.Mvc.Testing;
using TeamCircle.Data;
using TeamCircle.Testing.Postgres;

namespace TeamCircle.Web.Tests;

/// <summary>The whole portal as it runs in production, on a database of its own: <c>IClassFixture&lt;PortalApp&gt;</c>.</summary>
public class PortalApp(PgAssembly server) : WebApplicationFactory<Program>, IAsyncLifetime
{
    /// <summary>The portal's database, to arrange and to look at.</summary>
    public TestDatabase Database { get; } = new(server);

    /// <summary>Where this portal writes its log files.</summary>
    public string LogFolder { get; } = ScratchFolder.Make();

    public string SealKeyFile => Path.Combine(LogFolder, "keys", "seal.key");

    /// <summary>Where mails lie that it would send.</summary>
    public string MailFolder => Path.Combine(LogFolder, "mail");

    /// <summary>For a browser that reaches it without https.</summary>
    public bool PlainHttp { get; init; }

    public virtual async ValueTask InitializeAsync() => await Database.InitializeAsync();

    protected override void ConfigureWebHost(IWebHostBuilder builder) => builder
        .UseEnvironment("Production")
        .UseSetting("ConnectionStrings:TeamCircle", Database.ConnectionString(Migrate.App))
        .UseSetting("PlainHttp", PlainHttp ? "true" : "false")
        .UseSetting("Seal:KeyFile", SealKeyFile)
        .UseSetting("Mail:Folder", MailFolder)
        .UseSetting("Logs:Folder", LogFolder);

    /// <summary>The log once it holds <paramref name="line"/>: a request is logged after its answer has gone out.</summary>
    /// <exception cref="TimeoutException">It never came.</exception>
    public async Task<string> ReadLogAsync(string line)
    {
        using var soon = new CancellationTokenSource(TimeSpan.FromSeconds(20));
        using var pace = new PeriodicTimer(TimeSpan.FromMilliseconds(20));
        while (true)
        {
            var log = await ReadLogAsync();
            if (log.Contains(line, StringComparison.Ordinal))
                return log;
            if (soon.IsCancellationRequested)
                throw new TimeoutException($"The log never said: {line}");
            await pace.WaitForNextTickAsync(CancellationToken.None);
        }
    }

    /// <summary>Whatever a portal of the suite has mailed names no learner of the suite. Only long names: the tails of links are random letters.</summary>
    private void NameNobody()
    {
        foreach (var mail in Directory.Exists(MailFolder) ? Directory.GetFiles(MailFolder).Select(File.ReadAllText) : [])
        {
            foreach (var canary in new[] { "Belmares", "Tarrow", "Lautele" })
                Assert.DoesNotContain(canary, mail, StringComparison.OrdinalIgnoreCase);
        }
    }

    private async Task<string> ReadLogAsync()
    {
        var text = new StringBuilder();
        foreach (var path in Directory.GetFiles(LogFolder))
        {
            await using var file = new FileStream(path, FileMode.Open, FileAccess.Read, FileShare.ReadWrite);
            using var reader = new StreamReader(file);
            text.Append(await reader.ReadToEndAsync());
        }
        return text.ToString();
    }

    public override async ValueTask DisposeAsync()
    {
        await base.DisposeAsync();
        await Database.DisposeAsync();
        NameNobody();
        Directory.Delete(LogFolder, recursive: true);
        GC.SuppressFinalize(this);
    }
}
