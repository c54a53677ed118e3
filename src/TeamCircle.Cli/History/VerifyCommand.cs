using System.CommandLine;
using System.Globalization;
using TeamCircle.Cli.Startup;
using TeamCircle.Data.History;

namespace TeamCircle.Cli.History;

/// <summary><c>verify</c>: walks the sealed blocks of the trail of changes. Exit code 1 where something does not fit.</summary>
internal static class VerifyCommand
{
    private const int DoesNotFit = 1;

    public static Command Create()
    {
        var code = new Option<string?>("--agency") { Description = "The agency's code; all agencies otherwise." };
        var command = new Command("verify", "Find the first change that was altered, taken out or put in since it was sealed.") { code };
        command.SetAction((parsed, stop) => Desk.RunAsync(desk => RunAsync(desk, parsed.GetValue(code), stop), stop));
        return command;
    }

    private static async Task<int> RunAsync(Desk desk, string? code, CancellationToken stop)
    {
        var exit = 0;
        foreach (var agency in code is null ? await desk.AgencyIdsAsync(stop) : [await desk.AgencyIdAsync(code, stop)])
        {
            var answer = await desk.Get<VerifyChanges>().RunAsync(agency, stop);
            Console.WriteLine(Line(agency, answer));
            if (answer.Misfit is not null)
                exit = DoesNotFit;
        }
        return exit;
    }

    private static string Line(int agency, VerifyChanges.Answer answer)
    {
        var blocks = answer.Blocks == 0
            ? $"Agency {agency}: nothing is sealed yet. "
            : string.Create(CultureInfo.InvariantCulture, $"Agency {agency}: {answer.Blocks:N0} blocks with {answer.Changes:N0} changes fit, the last is {answer.LastHash}. ");
        return blocks + (answer.Misfit ?? string.Create(CultureInfo.InvariantCulture, $"{answer.Unsealed:N0} wait to be sealed."));
    }
}
