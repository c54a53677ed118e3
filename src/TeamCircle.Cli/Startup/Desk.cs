using System.CommandLine;
using Microsoft.AspNetCore.DataProtection;
using Microsoft.EntityFrameworkCore;
using Microsoft.Extensions.DependencyInjection;
using NodaTime;
using NodaTime.Text;
using TeamCircle.Core.People;
using TeamCircle.Data;
using TeamCircle.Data.Account;
using TeamCircle.Data.History;
using TeamCircle.Data.Postgres;

namespace TeamCircle.Cli.Startup;

/// <summary>What a command works with: the portal's database and its services.</summary>
internal sealed class Desk : IAsyncDisposable
{
    private readonly PortalDatabase _database;
    private readonly ServiceProvider _services;

    private Desk(PortalDatabase database, ServiceProvider services) => (_database, _services) = (database, services);

    /// <summary>Bad input, or nothing to work on: one line on standard error, nothing on standard output.</summary>
    public const int BadInput = 2;

    public static Option<string?> AgencyOption() => new("--agency") { Description = "The agency's code; needed where there are several." };

    /// <summary>The day that <c>--as-of</c> names.</summary>
    /// <exception cref="CommandFailure">It is none.</exception>
    public static LocalDate DayOf(string text) =>
        LocalDatePattern.Iso.Parse(text) is { Success: true } day
            ? day.Value
            : throw new CommandFailure($"--as-of {text}: write the day as year-month-day, for example 2026-10-02.");

    /// <summary>Opens the database that the portal uses, runs the work, and turns what a person can mend into one line.</summary>
    public static Task<int> RunAsync(Func<Desk, Task<int>> work, CancellationToken stop) => AnswerAsync(async () =>
    {
        var named = Environment.GetEnvironmentVariable("ConnectionStrings__TeamCircle");
        var database = await PortalDatabase.OpenAsync(AppContext.BaseDirectory, named, mayMigrate: false, Console.Error.WriteLine, stop);
        var services = new ServiceCollection().AddLogging().AddTeamCircleData(database.Connection)
            .AddSingleton(new SealKey(PortalFolders.From(AppContext.BaseDirectory).SealKey));
        // The portal's own keys: it sends the mail of a link that is made here.
        services.AddDataProtection().SetApplicationName("TeamCircle").PersistKeysToDbContext<AccountDb>();
        await using var desk = new Desk(database, services.BuildServiceProvider());
        return await work(desk);
    });

    /// <summary>Runs work that needs no open database, and turns what a person can mend into one line.</summary>
    public static async Task<int> AnswerAsync(Func<Task<int>> work)
    {
        try
        {
            return await work();
        }
        catch (Exception wrong) when (wrong is StartupFailure or CommandFailure)
        {
            await Console.Error.WriteLineAsync(wrong.Message);
            return BadInput;
        }
    }

    public T Get<T>() where T : notnull => ActivatorUtilities.GetServiceOrCreateInstance<T>(_services);

    /// <summary>Everything in an agency, for a command that an operator runs without a name.</summary>
    /// <param name="code">The agency's code in any case; null where there is one agency only.</param>
    /// <exception cref="CommandFailure">There is no such agency, or more than one and none was named.</exception>
    public async Task<Scope> AgencyAsync(string? code, string ground, CancellationToken stop)
    {
        var agency = code is null ? await OnlyAgencyAsync(stop) : await AgencyIdAsync(code, stop);
        var scope = Scope.Job(agency, 0, ground);
        var terminal = await Get<Portal>().ReadAsync(scope, db => db.PersonRoles
            .Where(r => r.AgencyId == agency && r.Role == Role.Terminal).Select(r => r.PersonId).FirstAsync(stop), stop);
        return scope with { PersonId = terminal };
    }

    public async ValueTask DisposeAsync()
    {
        await _services.DisposeAsync();
        await _database.DisposeAsync();
    }

    public async Task<bool> HasAgencyAsync(string code, CancellationToken stop) => await FindAgencyAsync(code, stop) is not null;

    public async Task<int> AgencyIdAsync(string code, CancellationToken stop) =>
        await FindAgencyAsync(code, stop) ?? throw new CommandFailure($"There is no agency {code}.");

    private Task<int?> FindAgencyAsync(string code, CancellationToken stop) =>
        AskAsync(db => db.Database.SqlQuery<int?>($"select portal.agency_id_of({code}) as \"Value\"").SingleAsync(stop), stop);

    public Task<List<int>> AgencyIdsAsync(CancellationToken stop) =>
        AskAsync(db => db.Database.SqlQuery<int>($"select portal.agency_ids() as \"Value\"").ToListAsync(stop), stop);

    private async Task<int> OnlyAgencyAsync(CancellationToken stop)
    {
        var agencies = await AgencyIdsAsync(stop);
        return agencies.Count switch
        {
            1 => agencies[0],
            0 => throw new CommandFailure("There is no agency yet: make one with new-agency, or import one's files."),
            _ => throw new CommandFailure("There are several agencies: name one with --agency CODE."),
        };
    }

    // Before the agency is known only the functions that list agencies answer.
    private Task<T> AskAsync<T>(Func<PortalDb, Task<T>> ask, CancellationToken stop) =>
        Get<Portal>().ReadAsync(new Scope(Wall.Job, 0, 0, [], true, "finding an agency"), ask, stop);
}

/// <summary>Why a command can't do what was asked, in one line.</summary>
internal sealed class CommandFailure(string message) : Exception(message);
