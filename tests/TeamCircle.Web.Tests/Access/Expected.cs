using TeamCircle.Core.People;
using TeamCircle.Web.Startup.Access;

namespace TeamCircle.Web.Tests.Access;

/// <summary>What must become of a visitor at a line of the matrix, written down apart from the code that decides.</summary>
public enum Answer
{
    Opened,
    NotFound,
    AskedToSignIn,
    AskedForAgency,
    AskedForSecondStep,
    AskedWhy,
}

public static class Expected
{
    private static readonly Visitor[] Everybody = Enum.GetValues<Visitor>();

    /// <summary>Who stands so to Wren, or to their own agency.</summary>
    private static readonly Dictionary<Ground, Visitor[]> Opens = new()
    {
        [Ground.Anyone] = Everybody,
        [Ground.FirstStep] = [.. Everybody.Except([Visitor.SignedOut])],
        [Ground.SettingUp] = [.. Everybody.Except([Visitor.SignedOut])],
        [Ground.SignedIn] = [.. Everybody.Except([Visitor.SignedOut, Visitor.PasswordAlone])],
        [Ground.Staff] =
        [
            Visitor.ProviderOnTeam, Visitor.ProviderElsewhere, Visitor.Substitute, Visitor.Assistant, Visitor.CaseManager, Visitor.CaseManagerElsewhere,
            Visitor.Administrator, Visitor.Director, Visitor.OtherAgency,
        ],
        [Ground.Team] = [Visitor.ProviderOnTeam, Visitor.Substitute, Visitor.Assistant, Visitor.CaseManager],
        [Ground.Member] = [Visitor.ProviderOnTeam, Visitor.CaseManager],
        [Ground.Assistant] = [Visitor.Assistant],
        [Ground.Manager] = [Visitor.CaseManager],
        [Ground.AnyManager] = [Visitor.CaseManager, Visitor.CaseManagerElsewhere, Visitor.OtherAgency],
        [Ground.Administrator] = [Visitor.Administrator],
        [Ground.AdministratorReason] = [Visitor.Administrator, Visitor.Director],
        [Ground.Director] = [Visitor.Director],
        [Ground.Family] = [Visitor.Family],
        [Ground.Reviewer] = [Visitor.Reviewer],
        [Ground.AnyReviewer] = [Visitor.Reviewer],
    };

    public static Answer Of(AccessLine line, Visitor visitor, bool saidWhy = false)
    {
        var open = line.Who.Where(g => Opens[g].Contains(visitor)).ToList();
        // Whatever their role, nothing of this agency's exists for somebody of another.
        if (visitor is Visitor.OtherAgency && line.Subject is not (Subject.None or Subject.Learners))
            open.RemoveAll(g => g is not (Ground.Anyone or Ground.FirstStep or Ground.SettingUp or Ground.SignedIn));
        if (open.Count > 0)
            return open[0] is Ground.AdministratorReason && !saidWhy ? Answer.AskedWhy : Answer.Opened;
        return visitor switch
        {
            Visitor.SignedOut => Answer.AskedToSignIn,
            Visitor.NobodyAnywhere => Answer.AskedForAgency,
            Visitor.PasswordAlone => Answer.AskedForSecondStep,
            _ => Answer.NotFound,
        };
    }
}
