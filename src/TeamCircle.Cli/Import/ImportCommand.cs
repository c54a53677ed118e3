using System.CommandLine;
using NodaTime;
using NodaTime.Text;
using TeamCircle.Cli.Startup;
using TeamCircle.Data.Import;

namespace TeamCircle.Cli.Import;

/// <summary><c>import FOLDER</c>: takes the files that an agency brings.</summary>
/// <remarks>
/// Exit code 0: everything is stored, or was known already. 1: rows were refused; their list stands on standard output, and
/// nothing is stored unless <c>--good-rows</c>. 2: the command cannot be run as written, one line on standard error.
/// </remarks>
internal static class ImportCommand
{
    private const int Refused = 1;

    public static Command Create()
    {
        var path = new Argument<string>("FOLDER") { Description = "A folder, a zip, or a single file such as visits.csv; or a OneRoster 1.2 set." };
        var agency = new Option<string?>("--agency") { Description = "The agency's code; made if new. Default: the only agency there is." };
        var who = new Option<string?>("--as") { Description = "E-mail of the person who brings the files. Default: the agency's terminal." };
        var today = new Option<string?>("--today") { Description = "The day that counts as today, such as 2026-10-02." };
        var good = new Option<bool>("--good-rows") { Description = "Store the good rows even where others are refused." };
        var closures = new Option<string>("--closures") { Description = "all: every all-day event of closures.ics is a closure; none: none is.", DefaultValueFactory = _ => "all" };
        var complete = new Option<string?>("--out") { Description = "With a OneRoster 1.2 set: the folder for the agency's own files that come of it, to complete and then to import." };
        closures.AcceptOnlyFromAmong("all", "none");
        var command = new Command("import", "Take the files that an agency brings.") { path, agency, who, today, good, closures, complete };
        command.SetAction((parsed, stop) =>
        {
            if (Day(parsed.GetValue(today)) is not { Success: true } day)
                return Task.FromResult(Fail("--today: write a date such as 2026-10-02."));
            return RunAsync(parsed.GetValue(path)!, brought => RosterCommand.Run(brought, day.Value, parsed.GetValue(complete)), files => new ImportFolder.Input(
                files, parsed.GetValue(agency), parsed.GetValue(who), day.Value, parsed.GetValue(good),
                parsed.GetValue(closures) == "none" ? new HashSet<string>() : null), stop);
        });
        return command;
    }

    private static async Task<int> RunAsync(string path, Func<BroughtFiles, int> completing, Func<IReadOnlyList<BroughtFile>, ImportFolder.Input> input, CancellationToken stop)
    {
        try
        {
            var brought = BroughtFiles.FromPath(path);
            foreach (var name in brought.PassedOver)
                Console.Error.WriteLine($"{name}: not one of the files that are imported; passed over.");
            if (brought.Problems.Count > 0)
                return ImportReport.Write(brought.Problems);
            if (brought.IsRoster)
                return completing(brought);
            if (brought.Files.Count == 0)
                return Fail($"{path}: holds none of the files that can be imported.");
            return await Desk.RunAsync(desk => ImportAsync(desk.Get<ImportFolder>(), input(brought.Files), stop), stop);
        }
        catch (ImportFailure failure)
        {
            return Fail(failure.Message);
        }
        catch (Exception unreadable) when (unreadable is IOException or UnauthorizedAccessException)
        {
            return Fail($"{path}: cannot be read.");
        }
    }

    private static async Task<int> ImportAsync(ImportFolder import, ImportFolder.Input input, CancellationToken stop)
    {
        var result = await import.RunAsync(input, stop: stop);
        ImportReport.Write(result);
        return result.Problems.Count > 0 ? Refused : 0;
    }

    private static (bool Success, LocalDate? Value) Day(string? text)
    {
        if (text is null)
            return (true, null);
        var parsed = LocalDatePattern.Iso.Parse(text);
        return (parsed.Success, parsed.Success ? parsed.Value : null);
    }

    internal static int Fail(string line)
    {
        Console.Error.WriteLine(line);
        return Desk.BadInput;
    }
}
