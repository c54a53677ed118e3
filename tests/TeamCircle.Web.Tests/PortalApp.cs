using System.Collections.Concurrent;
using System.Text;
using Microsoft.AspNetCore.Hosting;
using Microsoft.AspNetCore.Mvc.Testing;
using Microsoft.Extensions.DependencyInjection;
using TeamCircle.Data;
using TeamCircle.Testing;
using TeamCircle.Testing.Postgres;

namespace TeamCircle.Web.Tests;

/// <summary>The whole portal as it runs in production, on a database of its own: <c>IClassFixture&lt;PortalApp&gt;</c>.</summary>
public class PortalApp(PgAssembly server) : WebApplicationFactory<Program>, IAsyncLifetime
{
    private readonly ConcurrentBag<string> _addresses = [];

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
        .UseSetting("Logs:Folder", LogFolder)
        .ConfigureServices(services => services.AddSingleton<IStartupFilter>(new AddressWatch(_addresses)));

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

    /// <summary>What was said about learners where nothing may be: in log files, in mails, in addresses that were asked for or led to.</summary>
    private IReadOnlyList<string> Told() =>
    [
        .. Canaries.InFiles(LogFolder, "*.log", [.. Canaries.Records, .. Canaries.Secrets]), .. Canaries.InFiles(MailFolder, "*", Canaries.Records),
        .. Canaries.In(string.Join('\n', _addresses), Canaries.Records).Select(word => $"an address: {word}"),
    ];

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
        var told = Told();
        Directory.Delete(LogFolder, recursive: true);
        Assert.Equal([], told);
        GC.SuppressFinalize(this);
    }
}
