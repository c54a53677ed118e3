using Microsoft.AspNetCore.Mvc.RazorPages;
using TeamCircle.Core.Beginning;
using TeamCircle.Core.People;
using TeamCircle.Data.Beginning;
using TeamCircle.Data.History;
using TeamCircle.Web.Pages.Beginning;
using TeamCircle.Web.Startup;
using TeamCircle.Web.Ui;

namespace TeamCircle.Web.Pages.Settings;

/// <summary>What the agency sets, one place each.</summary>
public sealed class IndexModel(CurrentCaller caller, ReadTooMany read, ReadBeginning beginning) : PageModel
{
    public sealed record Place(string Name, string Address, string About);

    private static readonly Place Policy = new("Policy", "/settings/policy", "How short weeks, minutes beyond the plan and tolerance count, in the agency's own written words.");

    private static readonly Place Practice = new("Practice", "/settings/practice", "How long a review of a routine holds, and how soon a device asks about holds.");

    private static readonly Place Retention = new("Keeping and destroying", "/settings/retention", "How long parts of a record are kept; what is due, and what was destroyed.");

    internal static readonly Place Begin = new("Set up this agency", "/settings/begin", "From an empty list to the first audit, and how far it has come.");

    private static readonly Place[] All =
    [
        Begin,
        new("People", "/settings/people", "Who works here and which families sign in; roles, invitations."),
        new("Signing in", "/settings/sign-in", "Whether families need a second step; everybody who works here does."),
        new("School calendar", "/settings/calendar", "Terms, closures, extra days, holidays."),
        new("A learner entered twice", "/settings/entered-twice", "All that was recorded under one entry goes over to the other."),
        new("Time zone", "/settings/time-zone", "Where the agency's day begins and ends; visits to come keep their hours."),
        new("Places and travel", "/settings/places", "Where visits are, and how long the ways between them take."),
        new("Reporting periods", "/settings/periods", "The spans of days for which minutes and probes are judged."),
        Policy,
        Practice,
        new("Mail", "/settings/mail", "How mails go out, what did not go, and a test."),
        new("By the clock", "/settings/jobs", "What the portal does by itself: when it last did, and with what result."),
        new("The family's page", "/settings/family", "Whether families can tell the team something there, and say what was practised at home."),
        new("Coming of age", "/settings/coming-of-age", "From what age rights over the record are the learner's own."),
        Retention,
        new("Looking into records", "/reason", "Say why, for an hour; stop before it is over."),
        new("Import", "/settings/import", "Bring the agency's own spreadsheets in."),
    ];

    public IReadOnlyList<Place> Places => caller.Value.Is(Role.Administrator) ? All : [Begin, Policy, Practice, Retention];

    /// <summary>For administrators.</summary>
    public IReadOnlyList<TooMany> TooFast { get; private set; } = [];

    /// <summary>What nobody has begun yet of setting up; null where each step has been.</summary>
    public string? Next { get; private set; }

    public async Task OnGetAsync(CancellationToken stop)
    {
        Next = await beginning.RunAsync(caller.Value, stop) is { } facts && BeginningRules.Next(facts) is { } step ? $"Next: {Say.Within(BeginningWords.NameOf(step))}." : null;
        TooFast = caller.Value.Is(Role.Administrator) ? await read.RunAsync(caller.Scope, stop) : [];
    }
}
