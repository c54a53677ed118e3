using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Hosting;
using Microsoft.AspNetCore.Http;
using Microsoft.AspNetCore.Mvc.Testing;
using Microsoft.AspNetCore.TestHost;
using Microsoft.EntityFrameworkCore;
using Microsoft.Extensions.DependencyInjection;
using Microsoft.Extensions.Hosting;
using TeamCircle.Data;
using TeamCircle.Data.Account;

namespace TeamCircle.Benchmarks;

/// <summary>
/// The whole portal as it runs in production, on a loopback port of this process. Beside its own pages it has floors: <c>/floor/KEY</c> sends by
/// hand what the page recorded under that key sent, and answers with its bytes.
/// </summary>
internal sealed class LiveSite : WebApplicationFactory<Web.Startup.CurrentCaller>, IStartupFilter
{
    private readonly string _connection, _folder;
    private readonly ShiftedClock _clock;
    private readonly bool _hasAllJobs;

    /// <param name="connection">As the application role.</param>
    /// <param name="folder">A data folder: its key, its logs, its mails.</param>
    /// <param name="hasAllJobs">Whether all jobs run; otherwise sealing alone. On a clock that has just been set months ahead the others do at once, beside what is
    /// measured, what they had left undone: a mail to each of thousands of people, each with its own working out.</param>
    public LiveSite(string connection, string folder, ShiftedClock clock, bool hasAllJobs)
    {
        (_connection, _folder, _clock, _hasAllJobs) = (connection, folder, clock, hasAllJobs);
        UseKestrel(0);
    }

    public SentRecorder Recorder { get; } = new();

    /// <summary>How far this portal's clock is ahead of the real one.</summary>
    public TimeSpan Ahead => _clock.Ahead;

    public string Logs => Path.Combine(_folder, "logs");

    public Uri Address => ClientOptions.BaseAddress;

    protected override void ConfigureWebHost(IWebHostBuilder builder)
    {
        builder.UseSolutionRelativeContentRoot("src/TeamCircle.Web").UseEnvironment("Production").UseSetting("ConnectionStrings:TeamCircle", _connection)
            .UseSetting("PlainHttp", "true").UseSetting("Seal:KeyFile", Path.Combine(_folder, "seal.key")).UseSetting("Logs:Folder", Logs)
            .UseSetting("Mail:Folder", Path.Combine(_folder, "mail"));
        foreach (var limit in new[] { "PersonEachMinute", "AddressEachMinute", "SignInsEachMinute", "DevicesEachMinute" })
            builder.UseSetting($"Limits:{limit}", "100000000");
        builder.ConfigureTestServices(services => (_hasAllJobs ? services : SealingAlone(services))
            .AddSingleton<IStartupFilter>(this).AddSingleton(new DemonstrationAccounts(AreLetIn: true)).AddSingleton<TimeProvider>(_clock)
            .ConfigureDbContext<PortalDb>(o => o.AddInterceptors(Recorder.Interceptors))
            .ConfigureDbContext<AccountDb>(o => o.AddInterceptors(Recorder.Interceptors)));
    }

    private static IServiceCollection SealingAlone(IServiceCollection services)
    {
        foreach (var other in services.Where(s => s.ServiceType == typeof(IHostedService) && s.ImplementationType is { Namespace: "TeamCircle.Web.Jobs", Name: not "SealingJob" }).ToList())
            services.Remove(other);
        return services;
    }

    public Action<IApplicationBuilder> Configure(Action<IApplicationBuilder> next) => app =>
    {
        app.Map("/floor", floor => floor.Run(http => Recorder.Script(http.Request.Path.Value![1..]).AnswerAsync(http)));
        app.Use((http, go) =>
        {
            Recorder.Begin(http.Request.Headers[SentRecorder.Header]);
            return go(http);
        });
        next(app);
    };

    protected override void Dispose(bool disposing)
    {
        Recorder.Dispose();
        base.Dispose(disposing);
    }
}
