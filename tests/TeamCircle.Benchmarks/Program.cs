using System.Globalization;
using TeamCircle.Benchmarks;

// Usage: audit [--keep FOLDER] [LEARNERS …]   the whole-agency audit against reading the same rows, in one run on one private server;
//                                             a folder keeps the rows for the next run
//        planner [SECONDS]                    the make-up planner on random families, with every answer held to the rules
//        week                                 the calendar week of a team with 60 series against two floors written by hand
//        goal                                 the pages of a goal with 400 probes and 5,000 trials against an address that only reads the same rows
//        spreadsheet [--keep FOLDER] [LEARNERS] a period's sums by formulas of a spreadsheet against the audit; needs soffice
//        ledger                               the ledger alone, in memory
CultureInfo.CurrentCulture = CultureInfo.InvariantCulture;
if (args is ["audit", "--keep", var folder, .. var some])
    await AuditBenchmark.RunAsync(Sizes(some), folder);
else if (args is ["audit", .. var sizes])
    await AuditBenchmark.RunAsync(Sizes(sizes), null);
else if (args is ["planner", .. var seconds])
    PlannerBenchmark.Run(seconds is [var effort] ? double.Parse(effort, CultureInfo.InvariantCulture) : 20);
else if (args is ["week"])
    await WeekBenchmark.RunAsync();
else if (args is ["goal"])
    await GoalBenchmark.RunAsync();
else if (args is ["spreadsheet", "--keep", var rows, .. var learners])
    await SpreadsheetBenchmark.RunAsync(Sizes(learners)[^1], rows);
else if (args is ["spreadsheet", .. var few])
    await SpreadsheetBenchmark.RunAsync(Sizes(few)[^1], null);
else
    LedgerBenchmark.Run();

static int[] Sizes(string[] words) => [.. (words.Length > 0 ? words : ["100", "1000"]).Select(s => int.Parse(s, CultureInfo.InvariantCulture))];
