using System.Globalization;
using TeamCircle.Benchmarks;

// Usage: audit [LEARNERS …]   the whole-agency audit against reading the same rows, in one run on one private server
//        planner [SECONDS]    the make-up planner on random families, with every answer held to the rules
//        ledger               the ledger alone, in memory
CultureInfo.CurrentCulture = CultureInfo.InvariantCulture;
if (args is ["audit", .. var sizes])
    await AuditBenchmark.RunAsync([.. (sizes.Length > 0 ? sizes : ["100", "1000"]).Select(s => int.Parse(s, CultureInfo.InvariantCulture))]);
else if (args is ["planner", .. var seconds])
    PlannerBenchmark.Run(seconds is [var effort] ? double.Parse(effort, CultureInfo.InvariantCulture) : 20);
else
    LedgerBenchmark.Run();
