using TeamCircle.Core.Account;

namespace TeamCircle.Core.People;

/// <summary>What may open a page, as the access matrix names it; any one of a page's grounds is enough.</summary>
public enum Ground
{
    /// <summary>Signed out too.</summary>
    Anyone,

    /// <summary>An account of which only the first step was shown, too: the pages on which the rest is shown, and the way out.</summary>
    FirstStep,

    /// <summary>An account that has shown all it must, and one that must still set up its second factor.</summary>
    SettingUp,

    /// <summary>An account that has shown all it must, also one that no agency has on its list any more.</summary>
    SignedIn,
    Staff,

    /// <summary>Staff who work with the learner: its team and case manager, an assistant, and a substitute on their days.</summary>
    Team,

    /// <summary>The learner's team in full, its case manager among them: neither a substitute nor an assistant.</summary>
    Member,

    /// <summary>An assistant of the learner, under a supervisor.</summary>
    Assistant,

    /// <summary>The case manager of the learner.</summary>
    Manager,

    /// <summary>A case manager, whoever the learner.</summary>
    AnyManager,
    Administrator,

    /// <summary>An administrator or director who said why; the reason stands in the record of access.</summary>
    AdministratorReason,
    Director,
    Family,

    /// <summary>An outside reviewer of the learner, between the days and on the authority of the disclosure.</summary>
    Reviewer,

    /// <summary>An outside reviewer, whoever the learner.</summary>
    AnyReviewer,
}

/// <summary>Who may open what, by role and by how the caller stands to the learner today.</summary>
public static class AccessRules
{
    /// <summary>The grounds that need to know which learner a page is about.</summary>
    public static bool NeedsLearner(Ground ground) => ground is Ground.Team or Ground.Member or Ground.Assistant or Ground.Manager or Ground.Family or Ground.Reviewer;

    /// <summary>Whether it opens an account's own pages, as far as that account has come with signing in; such a page needs no agency.</summary>
    public static bool OpensOwn(Ground ground, Lack lack) => ground switch
    {
        Ground.FirstStep => true,
        Ground.SettingUp => lack is not Lack.SecondStep,
        Ground.SignedIn => lack is Lack.Nothing,
        _ => false,
    };

    /// <summary>Whether the whole agency is reached rather than the caller's own learners.</summary>
    public static bool ReachesAgency(Ground ground) => ground is Ground.Administrator or Ground.AdministratorReason or Ground.Director;

    /// <summary>The first of the grounds that opens; null where none does.</summary>
    /// <param name="grounds">In the order of the matrix.</param>
    /// <param name="caller">Null for an account that stands in no agency.</param>
    /// <param name="learner">The learner that the page is about; null where it is about none.</param>
    public static Ground? FirstOpen(IEnumerable<Ground> grounds, Caller? caller, int? learner)
    {
        foreach (var ground in grounds)
        {
            if (Opens(ground, caller, learner))
                return ground;
        }
        return null;
    }

    private static bool Opens(Ground ground, Caller? caller, int? learner) => ground switch
    {
        Ground.Anyone or Ground.FirstStep or Ground.SettingUp or Ground.SignedIn => true,
        Ground.Staff => caller is { IsStaff: true },
        Ground.Team => learner is { } id && caller is { IsStaff: true } && caller.OnTeam(id),
        Ground.Member => learner is { } id && caller is { IsStaff: true } && caller.IsMember(id),
        Ground.Assistant => learner is { } id && caller is { IsStaff: true } && caller.Stands(id, Relation.Assistant),
        Ground.Manager => learner is { } id && caller is { IsStaff: true } && caller.Manages(id),
        Ground.AnyManager => caller is not null && caller.Is(Role.CaseManager),
        Ground.Administrator => caller is not null && caller.Is(Role.Administrator),
        Ground.AdministratorReason => caller is not null && (caller.Is(Role.Administrator) || caller.Is(Role.Director)),
        Ground.Director => caller is not null && caller.Is(Role.Director),
        Ground.Family => learner is { } id && caller is not null && caller.IsFamilyOf(id),
        Ground.Reviewer => learner is { } id && caller is not null && caller.Reviews(id),
        Ground.AnyReviewer => caller is not null && caller.Is(Role.Reviewer),
        _ => false,
    };

    /// <summary>The ground in the words of the record of access: a relation where one opened it, else the role.</summary>
    public static string WordsOf(Ground ground, Caller? caller, int? learner) =>
        NeedsLearner(ground) && caller is not null && learner is { } id ? Words.Of(Closest(caller, id, ground)) : Words.Of(ground);

    private static Relation Closest(Caller caller, int learner, Ground ground) =>
        ground is Ground.Family ? Relation.Family
        : ground is Ground.Reviewer ? Relation.Reviewer
        : caller.Standings.Where(s => s.LearnerId == learner && s.Relation is not (Relation.Family or Relation.Reviewer))
            .Select(s => s.Relation).OrderByDescending(r => r is Relation.CaseManager).ThenBy(r => r).First();
}
