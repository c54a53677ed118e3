using System.Globalization;
using TeamCircle.Benchmarks;

// Usage: audit [--keep FOLDER] [LEARNERS …]   the whole-agency audit against reading the same rows, in one run on one private server;
//                                             a folder keeps the rows for the next run
//        planner [SECONDS]                    the make-up planner on random families, with every answer held to the rules
//        week                                 the calendar week of a team with 60 series against two floors written by hand
//        goal                                 the pages of a goal with 400 probes and 5,000 trials against an address that only reads the same rows
//        spreadsheet [--keep FOLDER] [LEARNERS] a period's sums by formulas of a spreadsheet against the audit; needs soffice
//        ledger                               the ledger alone, in memory
// On a data folder that TeamCircle.Cli seed --learners N has filled:
//        pages FOLDER [PAGE …]                pages over 32 connections against the same statements and bytes by hand
//        plans FOLDER                         every statement of these pages explained
//        saves FOLDER [EACH SECOND [MINUTES]] visits logged at a rate that waits for nobody, then a morning of 300 tablets; needs a folder that may be changed
//        soak FOLDER [MINUTES]                pages at speed, and what the portal holds meanwhile
CultureInfo.CurrentCulture = CultureInfo.InvariantCulture;
await (args switch
{
    ["audit", "--keep", var folder, .. var sizes] => AuditBenchmark.RunAsync(Sizes(sizes), folder),
    ["audit", .. var sizes] => AuditBenchmark.RunAsync(Sizes(sizes), null),
    ["planner"] => Task.Run(() => PlannerBenchmark.Run(20)),
    ["planner", var effort] => Task.Run(() => PlannerBenchmark.Run(Number(effort))),
    ["week"] => WeekBenchmark.RunAsync(),
    ["goal"] => GoalBenchmark.RunAsync(),
    ["spreadsheet", "--keep", var folder, .. var learners] => SpreadsheetBenchmark.RunAsync(Sizes(learners)[^1], folder),
    ["spreadsheet", .. var learners] => SpreadsheetBenchmark.RunAsync(Sizes(learners)[^1], null),
    ["pages", var folder, .. var pages] => PageBenchmark.RunAsync(folder, pages),
    ["plans", var folder] => PageBenchmark.ExplainAsync(folder),
    ["saves", var folder] => SaveBenchmark.RunAsync(folder, 200, 5),
    ["saves", var folder, var each] => SaveBenchmark.RunAsync(folder, Number(each), 5),
    ["saves", var folder, var each, var minutes] => SaveBenchmark.RunAsync(folder, Number(each), Number(minutes)),
    ["soak", var folder] => SoakBenchmark.RunAsync(folder, 10),
    ["soak", var folder, var minutes] => SoakBenchmark.RunAsync(folder, Number(minutes)),
    _ => Task.Run(LedgerBenchmark.Run),
});

static double Number(string word) => double.Parse(word, CultureInfo.InvariantCulture);

static int[] Sizes(string[] words) => [.. (words.Length > 0 ? words : ["100", "1000"]).Select(s => (int)Number(s))];
