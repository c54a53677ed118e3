using TeamCircle.Core.Account;
using TeamCircle.Core.People;
using TeamCircle.Data;

namespace TeamCircle.Web.Startup;

/// <summary>Who asks in this request, and what the access matrix let this request reach.</summary>
public sealed class CurrentCaller
{
    private Scope? _scope;

    /// <summary>Null where nobody is signed in.</summary>
    public long? AccountId { get; private set; }

    /// <summary>Which of the account's sign-ins this is; null where nobody is signed in.</summary>
    public long? SignInId { get; private set; }

    /// <summary>What this sign-in must still show, or set up, before anything but the account's own first pages opens.</summary>
    public Lack Lacks { get; private set; }

    /// <summary>Null where nobody is signed in, or the account stands in no agency today.</summary>
    public Caller? Find { get; private set; }

    /// <exception cref="InvalidOperationException">Nobody: the page's row in the access matrix lets people in who stand in no agency.</exception>
    public Caller Value => Find ?? throw new InvalidOperationException("Nobody stands behind this request; ask Find first.");

    /// <summary>What this request may reach, with its ground.</summary>
    /// <exception cref="InvalidOperationException">Nothing was granted.</exception>
    public Scope Scope => _scope ?? throw new InvalidOperationException("The access matrix granted this request nothing to reach.");

    /// <summary>The learner that the request is about; null where it is about none.</summary>
    public int? Learner { get; private set; }

    internal void SignedIn(SignInTicket ticket, Caller? caller, bool lacksProvider)
    {
        (AccountId, SignInId, Find, Lacks) = (ticket.Account, ticket.SignIn, caller, ticket.LackOf(caller));
        if (lacksProvider && Lacks is not Lack.SecondStep)
            Lacks = Lack.Provider;
    }

    internal void Grant(Scope scope, int? learner) => (_scope, Learner) = (scope, learner);
}
