using TeamCircle.Data;
using TeamCircle.Web.Jobs;
using TeamCircle.Web.Mail;
using TeamCircle.Web.Pages.MakeUps;
using TeamCircle.Web.Startup;

if (args is [SearchProcess.Argument])
    return await SearchProcess.AnswerAsync(Console.In, Console.Out);
try
{
    using var apart = await DemonstrationApart.EnterAsync(args);
    if (apart is { IsLeaving: true })
        return 0;
    var builder = WebApplication.CreateBuilder(apart?.Args ?? args);
    builder.WebHost.UseStaticWebAssets(); // does nothing once published; before that, files come from several folders in every environment
    builder.WebHost.ConfigureKestrel(server => server.AddServerHeader = false);
    builder.AddLog();
    await using var database = await builder.OpenDatabaseAsync();
    builder.Services.AddPages();
    builder.Services.AddTeamCircleData(database.Connection, await builder.CheckReadsAsync());
    builder.Services.AddHealth(database);
    builder.AddSignIn();
    builder.AddMail();
    builder.AddJobs();

    await using var app = builder.Build();
    app.UseProxy();
    app.UseProblemPages();
    app.UseRequestLog();
    app.UseSafeHeaders();
    app.UseDatabaseAwayPage();
    app.UseRouting();
    app.UseSizes();
    app.UseSignIn();
    app.MapStaticAssets().ShortCircuit();
    app.MapRazorPages().WithStaticAssets();
    app.MapHealth();
    app.MapFeed();
    app.MapPractiseShell();
    app.MapDevices();

    await app.StartAsync();
    await app.AnnounceAsync();
    await app.WaitForShutdownAsync();
    return 0;
}
catch (Exception failure) when (StartupLine.Of(failure) is { } line)
{
    await Console.Error.WriteLineAsync(line);
    return 1;
}

public partial class Program;
