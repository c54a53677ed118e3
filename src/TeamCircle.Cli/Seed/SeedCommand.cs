using System.CommandLine;
using TeamCircle.Cli.Startup;
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
        var learners = new Option<int?>("--learners") { Description = "So many made-up learners, for measuring; each has 5 services, 2 goals and about 255 visits." };
        var agency = new Option<string>("--agency") { DefaultValueFactory = _ => "LOAD", Description = "With --learners: the code of the new agency." };
        var seed = new Option<int>("--seed") { DefaultValueFactory = _ => 1, Description = "With --learners: the same number makes the same rows." };
        learners.Validators.Add(given =>
        {
            if (given.GetValueOrDefault<int?>() is < 1 or > 100_000)
                given.AddError("--learners: a number from 1 to 100000.");
        });
        var command = new Command("seed", "Fill a database.") { demonstration, learners, agency, seed };
        command.Validators.Add(given =>
        {
            if (given.GetValue(demonstration) == (given.GetValue(learners) is not null))
                given.AddError("Say either --demonstration or --learners N.");
        });
        command.SetAction((parsed, stop) => Desk.RunAsync(
            desk => parsed.GetValue(learners) is { } count
                ? LoadAsync(desk, parsed.GetValue(agency)!, count, parsed.GetValue(seed), stop)
                : DemonstrateAsync(desk, stop),
            stop));
        return command;
    }

    private static async Task<int> DemonstrateAsync(Desk desk, CancellationToken stop)
    {
        if (await desk.Get<SeedDemonstration>().RunAsync(stop) is null)
            throw new CommandFailure("This database already holds an agency: the demonstration is put into an empty one only.");
        Console.WriteLine($"The demonstration agency {SeedDemonstration.AgencyCode} is there.");
        return 0;
    }

    private static async Task<int> LoadAsync(Desk desk, string code, int learners, int seed, CancellationToken stop)
    {
        if (await desk.HasAgencyAsync(code, stop))
            throw new CommandFailure($"There is an agency {code} already: name another with --agency CODE.");
        var made = await desk.Get<LoadSeed>().RunAsync(code, learners, seed, done => Console.Error.WriteLine($"{Math.Min(done, learners)} of {learners} learners"), stop);
        Console.WriteLine($"{code}: {made.Learners} learners, {made.Services} services, {made.Visits} visits, {made.Sessions} of them logged, {made.Probes} probes, {made.Decisions} decisions.");
        Console.WriteLine($"Audit it with: audit --agency {code} --period \"{LoadSeed.Period}\" --as-of {LoadSeed.AsOf:uuuu-MM-dd}");
        return 0;
    }
}
