using System.CommandLine;
using System.Globalization;
using TeamCircle.Cli.Startup;
using TeamCircle.Data.Closing;
using TeamCircle.Data.History;

namespace TeamCircle.Cli.History;

/// <summary><c>verify</c>: walks the sealed blocks of the trail of changes, works sealed counts out anew and compares the closed ones with today's facts.
/// Exit code 1 where something does not fit.</summary>
internal static class VerifyCommand
{
    private const int DoesNotFit = 1;

    public static Command Create()
    {
        var code = new Option<string?>("--agency") { Description = "The agency's code; all agencies otherwise." };
        var command = new Command("verify", "Find the first change, statement or row of a closed count that was altered, taken out or put in since it was sealed.") { code };
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
            var counts = await desk.Get<VerifyStatements>().RunAsync(agency, stop);
            foreach (var line in Lines(agency, counts))
                Console.WriteLine(line);
            if (answer.Misfit is not null || counts.Misfit is not null || counts.Differences.Count > 0)
                exit = DoesNotFit;
        }
        return exit;
    }

    private static IEnumerable<string> Lines(int agency, VerifyStatements.Answer answer)
    {
        if (answer.Statements > 0)
            yield return string.Create(CultureInfo.InvariantCulture, $"Agency {agency}: {answer.Statements:N0} statements with {answer.Lines:N0} lines come to what they sealed.");
        if (answer.Misfit is { } misfit)
            yield return misfit;
        foreach (var difference in answer.Differences)
        {
            yield return $"Differs: {difference.Learner}, {difference.Period}, {difference.Line}: {difference.Figure} was sealed as {difference.Sealed ?? "nothing"} and comes to {difference.Today ?? "nothing"} today.";
            foreach (var change in difference.Changes)
                yield return $"  {change}";
            if (difference.Changes.Count == 0)
                yield return "  No change is on record behind it: rows were altered by other means than the portal.";
        }
    }

    private static string Line(int agency, VerifyChanges.Answer answer)
    {
        var blocks = answer.Blocks == 0
            ? $"Agency {agency}: nothing is sealed yet. "
            : string.Create(CultureInfo.InvariantCulture, $"Agency {agency}: {answer.Blocks:N0} blocks with {answer.Changes:N0} changes fit, the last is {answer.LastHash}. ");
        if (answer.Emptied > 0)
            blocks += string.Create(CultureInfo.InvariantCulture, $"Of these the contents of {answer.Emptied:N0} were destroyed under a rule or at a family's request. ");
        return blocks + (answer.Misfit ?? string.Create(CultureInfo.InvariantCulture, $"{answer.Unsealed:N0} wait to be sealed."));
    }
}
