using System.CommandLine;
using TeamCircle.Core.Cases;

namespace TeamCircle.Cli.Workout;

/// <summary><c>workout FILE</c>: works out the cases of a file by the code that the portal uses.</summary>
/// <remarks>The answer goes to standard output as JSON. Bad input: exit code 2, one line on standard error that names the
/// field and what is wrong, and nothing on standard output.</remarks>
internal static class WorkoutCommand
{
    private const int BadInput = 2;

    public static Command Create()
    {
        var file = new Argument<string>("FILE") { Description = "A case, or a list of cases, as JSON." };
        var command = new Command("workout", "Work out one figure, or many, from a case file.") { file };
        command.SetAction(parsed => Run(parsed.GetValue(file)!));
        return command;
    }

    private static int Run(string path)
    {
        try
        {
            Console.Out.WriteLine(CaseFile.WorkOut(File.ReadAllText(path)));
            return 0;
        }
        catch (CaseException wrong)
        {
            Console.Error.WriteLine(wrong.Message);
        }
        catch (Exception unreadable) when (unreadable is IOException or UnauthorizedAccessException or ArgumentException or NotSupportedException)
        {
            Console.Error.WriteLine($"{path}: cannot be read");
        }
        return BadInput;
    }
}
