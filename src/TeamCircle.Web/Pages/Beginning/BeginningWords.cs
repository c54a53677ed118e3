using TeamCircle.Core.Beginning;
using TeamCircle.Web.Ui;

namespace TeamCircle.Web.Pages.Beginning;

/// <summary>One step as the page says it.</summary>
/// <param name="Now">What stands now.</param>
/// <param name="ToDo">What to do next, or what to know.</param>
/// <param name="IsForAll">Whether a director may do it too.</param>
public sealed record BeginningLine(BeginningStep Step, string Name, StepState State, string Now, string ToDo, string Act, string Address, bool IsForAll = false);

internal static class BeginningWords
{
    public static string Of(StepState state) => state switch
    {
        StepState.NotYet => "not yet",
        StepState.Begun => "begun",
        _ => "done",
    };

    public static string NameOf(BeginningStep step) => step switch
    {
        BeginningStep.Files => "Bring people and learners",
        BeginningStep.Calendar => "Check the school calendar",
        BeginningStep.Periods => "Enter the reporting periods",
        BeginningStep.Plans => "Bring the plans' services",
        BeginningStep.People => "Invite the people who work here",
        _ => "See the first audit",
    };

    public static BeginningLine Of(BeginningStep step, BeginningFacts facts)
    {
        var (name, state) = (NameOf(step), BeginningRules.Of(step, facts));
        return step switch
        {
            BeginningStep.Files => new(step, name, state, Files(facts),
                "Fill in the empty files, or bring a OneRoster set of your student system: it gives people and names, and you add what it does not know.", "Open import", "/settings/import"),
            BeginningStep.Calendar => new(step, name, state, Calendar(facts),
                "What is owed rests on the days of the terms. Enter terms and closures there, or bring them as terms.csv and closures.ics.", "Open the school calendar", "/settings/calendar"),
            BeginningStep.Periods => new(step, name, state, Periods(facts),
                "Minutes and probes are judged for these spans of days, such as a quarter.", "Open reporting periods", "/settings/periods"),
            BeginningStep.Plans => new(step, name, state, Plans(facts),
                "Bring services.csv and goals.csv, or let each case manager enter them on the learner's plan.", "Open import", "/settings/import"),
            BeginningStep.People => new(step, name, state, People(facts),
                "Open a name and make a link: it works once, for three days. Have two administrators. Families are best invited last.", "Open people", "/settings/people"),
            _ => new(step, name, state, Audit(facts),
                "Each line says what is due so far and what was given, and every figure opens to how it was worked out. Hold a few against the plans.", "Open the audit", "/audit", IsForAll: true),
        };
    }

    private static string Files(BeginningFacts facts) => (facts.Learners, facts.Staff) switch
    {
        (0, <= 1) => "Nobody yet but you.",
        _ => $"{Say.Count(facts.Learners, "learner")}, {Persons(facts.Staff)} working here, {Persons(facts.Families)} of families.",
    };

    private static string Calendar(BeginningFacts facts) => facts.LastTermDay is not { } last ? "No term yet."
        : $"{Say.Count(facts.Terms, "term")}, the last to {Say.Date(last)}; {(facts.Closures == 0 ? "no closure" : Say.Count(facts.Closures, "closed or extra day"))}.";

    private static string Periods(BeginningFacts facts) => facts.LastPeriodDay is not { } last ? "No reporting period yet."
        : $"{Say.Count(facts.Periods, "reporting period")}, the last to {Say.Date(last)}.";

    private static string Plans(BeginningFacts facts) => (facts.Services, facts.Learners - facts.LearnersWithServices) switch
    {
        (0, _) => "No service yet.",
        (_, <= 0) => $"{Say.Count(facts.Services, "service")}; every learner has one.",
        (_, var without) => $"{Say.Count(facts.Services, "service")}; {Say.Count(without, "learner")} without one.",
    };

    private static string People(BeginningFacts facts) => facts.Staff <= 1 ? "Nobody yet but you."
        : $"Of {Persons(facts.Staff)} working here {Have(facts.StaffJoined)} joined, {Have(facts.StaffInvited)} a link, {Say.Number(facts.StaffWaiting)} {(facts.StaffWaiting == 1 ? "has" : "have")} neither.";

    private static string Audit(BeginningFacts facts) => (facts.Periods, facts.Services) switch
    {
        (0, _) or (_, 0) => "It needs a reporting period and a service first.",
        _ => facts.AuditSeen ? "It was opened." : "It is ready; nobody has opened it yet.",
    };

    private static string Persons(int count) => count == 1 ? "1 person" : $"{Say.Number(count)} people";

    private static string Have(int count) => $"{Say.Number(count)} {(count == 1 ? "has" : "have")}";
}
