using System.CommandLine;
using TeamCircle.Cli.Postgres;
using TeamCircle.Cli.Startup;
using TeamCircle.Data.Account;
using TeamCircle.Data.Demonstration;
using TeamCircle.Data.Seed;

namespace TeamCircle.Cli.Seed;

/// <summary><c>seed --demonstration</c> fills an empty database with the demonstration agency; <c>seed --learners N</c> makes an
/// agency of its own with rows for measuring.</summary>
internal static class SeedCommand
{
    public static Command Create()
    {
        var demonstration = new Option<bool>("--demonstration") { Description = "The demonstration agency, laid around today, in an empty database." };
        var learners = new Option<int?>("--learners") { Description = "So many made-up learners, for measuring, in a database without real ones; each has 5 services, 2 goals, a routine and about 255 visits." };
        var agency = new Option<string>("--agency") { DefaultValueFactory = _ => "LOAD", Description = "With --learners: the code of the new agency." };
        var seed = new Option<int>("--seed") { DefaultValueFactory = _ => 1, Description = "With --learners: the same number makes the same rows." };
        var asOf = new Option<string?>("--as-of") { Description = $"With --learners: visits before this day are logged, later ones planned; {LoadSeed.AsOf:uuuu-MM-dd} otherwise." };
        learners.Validators.Add(given =>
        {
            if (given.GetValueOrDefault<int?>() is < 1 or > 100_000)
                given.AddError("--learners: a number from 1 to 100000.");
        });
        var command = new Command("seed", "Fill a database.") { demonstration, learners, agency, seed, asOf };
        command.Validators.Add(given =>
        {
            if (given.GetValue(demonstration) == (given.GetValue(learners) is not null))
                given.AddError("Say either --demonstration or --learners N.");
        });
        command.SetAction((parsed, stop) => parsed.GetValue(learners) is { } count
            ? LoadAsync(new(parsed.GetValue(agency)!, count, parsed.GetValue(seed)), parsed.GetValue(asOf), stop)
            : Desk.RunAsync(desk => DemonstrateAsync(desk, stop), stop));
        return command;
    }

    private static async Task<int> DemonstrateAsync(Desk desk, CancellationToken stop)
    {
        if (await desk.Get<SeedDemonstration>().RunAsync(stop) is null)
            throw new CommandFailure("This database already holds an agency: the demonstration is put into an empty one only.");
        Console.WriteLine($"The demonstration agency {SeedDemonstration.AgencyCode} is there.");
        return 0;
    }

    private static async Task<int> LoadAsync(LoadSeed.Input input, string? asOf, CancellationToken stop)
    {
        // The private database is made where there is none yet.
        var answer = await Desk.RunAsync(_ =>
        {
            input = asOf is null ? input : input with { AsOf = Desk.DayOf(asOf) };
            return Task.FromResult(0);
        }, stop);
        if (answer == 0)
            answer = await OwnerDesk.RunAsync(mayBeEmpty: false, owner => FillAsync(owner, input, stop), stop);
        return answer == 0 && Environment.GetEnvironmentVariable("ASPNETCORE_ENVIRONMENT") == "Development"
            ? await Desk.RunAsync(desk => LetSignInAsync(desk, input.Code, stop), stop)
            : answer;
    }

    private static async Task FillAsync(string owner, LoadSeed.Input input, CancellationToken stop)
    {
        var made = await LoadSeed.RunAsync(owner, input, Console.Error.WriteLine, stop);
        Console.WriteLine($"{input.Code}: {input.Learners} learners, {made.Services} services, {made.Visits} visits, {made.Sessions} entries about them, {made.Probes} probes, "
            + $"{made.Decisions} decisions, {made.Practices} practices, {made.Trials} trials.");
        Console.WriteLine($"SHA-256 of the rows: {made.Hash}");
        Console.WriteLine($"Audit it with: audit --agency {input.Code} --period \"{LoadSeed.Period}\" --as-of {input.AsOf:uuuu-MM-dd}");
    }

    private static async Task<int> LetSignInAsync(Desk desk, string code, CancellationToken stop)
    {
        var agency = await desk.AgencyAsync(code, "sign-ins to a made-up agency", stop);
        var made = await desk.Get<CreateDemonstrationAccounts>().RunAsync(agency, isDevelopment: true, LoadSeed.SignIns, stop);
        Console.WriteLine($"Sign-ins in Development, all with the passphrase {CreateDemonstrationAccounts.Passphrase}: {string.Join(", ", made.Select(m => m.Email))}");
        return 0;
    }
}
