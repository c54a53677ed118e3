using TeamCircle.Core.People;
using TeamCircle.Web.Ui;

namespace TeamCircle.Web.Pages.Guide;

/// <summary>The task of a guide that a page's foot leads to.</summary>
public sealed record HelpTopic(string Title, string Address);

/// <summary>Which task of which guide is done on which page.</summary>
public static class HelpTopics
{
    /// <summary>By the page's path below Pages: the guide's name, and the heading's anchor in it.</summary>
    public static readonly IReadOnlyDictionary<string, (string Guide, string Anchor)> All = new Dictionary<string, (string, string)>
    {
        ["/Sessions/Today"] = ("provider", "begin-the-day"),
        ["/Sessions/Log"] = ("provider", "log-a-visit"),
        ["/Sessions/LogNew"] = ("provider", "log-a-visit-that-nobody-had-scheduled"),
        ["/Sessions/CallOff"] = ("provider", "call-off-a-visit"),
        ["/Sessions/RunningLate"] = ("provider", "say-that-you-are-running-late"),
        ["/Sessions/Correct"] = ("provider", "correct-a-visit"),
        ["/Sessions/ToCountersign"] = ("provider", "countersign-what-an-assistant-logged"),
        ["/Sessions/Countersign"] = ("provider", "countersign-what-an-assistant-logged"),
        ["/People/SomebodyElse"] = ("provider", "let-somebody-else-come"),
        ["/People/ReadFirst"] = ("provider", "stand-in-for-a-colleague"),
        ["/Calendar/Week"] = ("provider", "schedule-a-visit-that-recurs"),
        ["/Calendar/New"] = ("provider", "schedule-a-visit-that-recurs"),
        ["/Calendar/Change"] = ("provider", "move-one-visit-or-all-that-follow"),
        ["/Calendar/ChangeFollowing"] = ("provider", "move-one-visit-or-all-that-follow"),
        ["/Calendar/Cancel"] = ("provider", "move-one-visit-or-all-that-follow"),
        ["/Routines/Index"] = ("provider", "record-a-practice-without-a-network"),
        ["/Routines/Card"] = ("provider", "record-a-practice-without-a-network"),
        ["/Routines/SetHold"] = ("provider", "set-a-hold"),
        ["/Progress/Probe"] = ("provider", "add-a-probe"),
        ["/Devices/Own"] = ("provider", "lose-a-tablet"),
        ["/Devices/SetAside"] = ("provider", "see-what-was-set-aside"),
        ["/Reports/Goal"] = ("provider", "write-your-paragraph-of-a-progress-report"),
        ["/Commitments/Audit"] = ("case-manager", "read-the-audit"),
        ["/Commitments/Working"] = ("case-manager", "open-a-figure"),
        ["/Commitments/GoalWorking"] = ("case-manager", "open-a-figure"),
        ["/Commitments/DecideService"] = ("case-manager", "decide-about-minutes-not-given"),
        ["/Commitments/DecideGoal"] = ("case-manager", "decide-about-minutes-not-given"),
        ["/MakeUps/Index"] = ("case-manager", "plan-make-up-visits"),
        ["/Calendar/Away"] = ("case-manager", "enter-that-a-learner-is-away"),
        ["/Closing/Index"] = ("case-manager", "close-a-reporting-period"),
        ["/Closing/Count"] = ("case-manager", "close-a-reporting-period"),
        ["/Closing/BroughtForward"] = ("case-manager", "deal-with-what-was-brought-forward"),
        ["/Family/Summaries"] = ("case-manager", "publish-the-familys-summary"),
        ["/Family/Summary"] = ("case-manager", "publish-the-familys-summary"),
        ["/Family/EditSummary"] = ("case-manager", "publish-the-familys-summary"),
        ["/Family/Remarks"] = ("case-manager", "answer-what-the-family-says"),
        ["/Learners/Plan"] = ("case-manager", "amend-the-plan"),
        ["/Learners/AmendService"] = ("case-manager", "amend-the-plan"),
        ["/People/Team"] = ("case-manager", "put-somebody-on-the-team"),
        ["/Rights/Index"] = ("case-manager", "meet-a-request-about-the-record"),
        ["/Quiet/Index"] = ("case-manager", "set-quiet"),
        ["/Disputes/Facts"] = ("case-manager", "put-the-facts-in-order-for-a-dispute"),
        ["/Settings/Index"] = ("administrator", "set-the-agency-up"),
        ["/Calendar/School"] = ("administrator", "enter-a-closure"),
        ["/Calendar/AddClosure"] = ("administrator", "enter-a-closure"),
        ["/Calendar/Periods"] = ("administrator", "set-the-agency-up"),
        ["/People/Index"] = ("administrator", "put-a-person-on-the-list"),
        ["/People/Invite"] = ("administrator", "put-a-person-on-the-list"),
        ["/People/Person"] = ("administrator", "give-or-end-a-role"),
        ["/Import/Index"] = ("administrator", "import-spreadsheets"),
        ["/Import/Undo"] = ("administrator", "undo-an-import"),
        ["/Settings/Mail"] = ("administrator", "see-whether-mails-go-out"),
        ["/Retention/Index"] = ("director", "agree-to-destroy"),
        ["/Account/Reason"] = ("administrator", "open-a-learners-record"),
        ["/Calendar/ChangePolicy"] = ("director", "change-the-policy-for-counting"),
        ["/Closing/Reopen"] = ("director", "open-a-closed-count-again"),
        ["/Monitoring/Monitor"] = ("director", "draw-a-sample-of-files"),
        ["/Monitoring/Samples"] = ("director", "draw-a-sample-of-files"),
        ["/Monitoring/Files"] = ("reviewer", "open-a-file"),
        ["/Monitoring/File"] = ("reviewer", "read-a-file-as-of-a-day"),
    };

    /// <summary>Null where the page has no task of its own, or its guide is none of the reader's.</summary>
    /// <param name="page">The page's path below Pages; null outside of pages.</param>
    public static HelpTopic? For(Caller reader, string? page) =>
        page is not null && All.TryGetValue(page, out var at) && GuideShelf.Find(reader, at.Guide)?.Tasks.FirstOrDefault(t => t.Anchor == at.Anchor) is { } task
            ? new(Say.Within(task.Title), $"/help/{at.Guide}#{at.Anchor}") : null;
}
