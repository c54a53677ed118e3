using TeamCircle.Core.People;
using TeamCircle.Data;

namespace TeamCircle.Web.Startup;

/// <summary>Who asks, for the length of one request.</summary>
public sealed class CurrentCaller
{
    private Scope? _scope;

    /// <summary>Null where nobody is signed in.</summary>
    public Caller? Find { get; private set; }

    /// <exception cref="InvalidOperationException">Nobody is signed in: the access filter should have stopped the request.</exception>
    public Caller Value => Find ?? throw new InvalidOperationException("Nobody is signed in.");

    /// <summary>What this request may reach.</summary>
    public Scope Scope => _scope ?? Scope.Of(Value);

    public void Set(Caller caller, Scope? scope = null) => (Find, _scope) = (caller, scope);
}
