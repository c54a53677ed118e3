using System.CommandLine;
using TeamCircle.Cli.Startup;
using TeamCircle.Data;
using TeamCircle.Data.Calendar;
using TeamCircle.Data.Commitments;
using TeamCircle.Data.People;

namespace TeamCircle.Cli.Commitments;

/// <summary><c>audit --period NAME</c>: prints the audit that the page shows.</summary>
internal static class AuditCommand
{
    private sealed record Question(string Period, string? AsOf, string? Agency, string Format);

    public static Command Create()
    {
        var period = new Option<string>("--period") { Required = true, Description = "Name of the reporting period." };
        var asOf = new Option<string?>("--as-of") { Description = "The day as of which it is judged, as 2026-10-02; today otherwise." };
        var agency = Desk.AgencyOption();
        var format = new Option<string>("--format") { DefaultValueFactory = _ => "table" };
        format.AcceptOnlyFromAmong("table", "csv", "json");
        var command = new Command("audit", "Say for a reporting period what was promised, given and is lacking.") { period, asOf, agency, format };
        command.SetAction((parsed, stop) =>
        {
            var question = new Question(parsed.GetValue(period)!, parsed.GetValue(asOf), parsed.GetValue(agency), parsed.GetValue(format)!);
            return Desk.RunAsync(desk => RunAsync(desk, question, stop), stop);
        });
        return command;
    }

    private static async Task<int> RunAsync(Desk desk, Question question, CancellationToken stop)
    {
        var scope = await desk.AgencyAsync(question.Agency, "audit at the terminal", stop);
        var read = desk.Get<ReadAudit>();
        var period = Named(await read.PeriodsAsync(scope, stop), question.Period);
        var day = question.AsOf is null ? await desk.Get<ReadToday>().RunAsync(scope, stop) : Desk.DayOf(question.AsOf);
        var audit = await read.RunAsync(scope, period.Id, day, stop)
            ?? throw new CommandFailure($"There is no reporting period {question.Period} any more.");
        Print(audit, question.Format);
        return 0;
    }

    private static PeriodRow Named(List<PeriodRow> periods, string name) =>
        periods.Find(p => string.Equals(p.Name, name.Trim(), StringComparison.OrdinalIgnoreCase))
        ?? throw new CommandFailure($"There is no reporting period {name}. There are: {string.Join(", ", periods.Select(p => p.Name))}.");

    private static void Print(Audit audit, string format)
    {
        switch (format)
        {
            case "json":
                using (var output = Console.OpenStandardOutput())
                    AuditJson.Write(output, audit);
                Console.WriteLine();
                break;
            case "csv":
                AuditSheet.WriteCsv(Console.Out, audit, audit.Lines);
                break;
            default:
                AuditTable.Write(Console.Out, audit);
                break;
        }
    }
}
