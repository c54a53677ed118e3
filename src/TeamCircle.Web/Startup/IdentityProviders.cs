using TeamCircle.Core.People;
using TeamCircle.Data;
using TeamCircle.Data.Account;

namespace TeamCircle.Web.Startup;

/// <summary>An agency's own identity provider (OpenID Connect), as <c>Oidc__0__…</c> sets it.</summary>
public sealed record IdentityProvider
{
    /// <summary>What the button says after "Sign in with".</summary>
    public string Name { get; init; } = "your agency";

    /// <summary>Its address; its own description of itself is read from there.</summary>
    public string Authority { get; init; } = "";
    public string ClientId { get; init; } = "";

    /// <summary>A file that holds the client's secret alone; null for a client without one (PKCE stands in every case).</summary>
    public string? ClientSecretFile { get; init; }

    /// <summary>The code of the agency whose people it vouches for.</summary>
    public string Agency { get; init; } = "";

    /// <summary>Whether that agency's staff can sign in by it alone.</summary>
    public bool ReplacesPasswords { get; init; }

    /// <summary>The value of <c>acr</c>, or one of <c>amr</c>, by which it says that it asked for two factors; null: its word is never taken for two.</summary>
    public string? SecondFactor { get; init; }

    public string Scheme => $"provider-{Agency.ToLowerInvariant()}";

    /// <exception cref="StartupFailure">Something is missing.</exception>
    internal static List<IdentityProvider> Read(IConfiguration configuration)
    {
        var all = configuration.GetSection("Oidc").Get<List<IdentityProvider>>() ?? [];
        foreach (var one in all)
        {
            if (!Uri.TryCreate(one.Authority, UriKind.Absolute, out var address) || address.Scheme != Uri.UriSchemeHttps || one.ClientId.Length == 0 || one.Agency.Length == 0)
                throw new StartupFailure("An identity provider is not set up: Oidc__0__Authority (https://…), Oidc__0__ClientId and Oidc__0__Agency (its code) are needed.");
        }
        return all;
    }

    /// <exception cref="StartupFailure">The file can't be read.</exception>
    internal string? ReadSecret()
    {
        try
        {
            return ClientSecretFile is { Length: > 0 } file ? File.ReadAllText(file).Trim() : null;
        }
        catch (Exception unread) when (unread is IOException or UnauthorizedAccessException)
        {
            throw new StartupFailure("The file that Oidc__0__ClientSecretFile names can't be read.", unread);
        }
    }
}

/// <summary>The identity providers that this portal knows, by their agencies.</summary>
public sealed class IdentityProviders(IReadOnlyList<IdentityProvider> all, IServiceScopeFactory scopes)
{
    private readonly Dictionary<string, int> _ids = new(StringComparer.OrdinalIgnoreCase);
    private readonly Lock _writing = new();

    public IReadOnlyList<IdentityProvider> All => all;

    public IdentityProvider? Of(string agency) => all.FirstOrDefault(p => string.Equals(p.Agency, agency, StringComparison.OrdinalIgnoreCase));

    /// <summary>Null where that agency has none.</summary>
    public async Task<IdentityProvider?> OfAsync(int agency, CancellationToken stop)
    {
        foreach (var one in all)
        {
            if (await IdAsync(one.Agency, stop) == agency)
                return one;
        }
        return null;
    }

    /// <summary>Whether somebody must come by their agency's provider, and did not.</summary>
    internal async Task<bool> LacksAsync(SignInTicket ticket, Caller? caller, CancellationToken stop) =>
        caller is { IsStaff: true } && !ticket.ByProvider && all.Any(p => p.ReplacesPasswords) && await OfAsync(caller.AgencyId, stop) is { ReplacesPasswords: true };

    private async Task<int?> IdAsync(string code, CancellationToken stop)
    {
        lock (_writing)
        {
            if (_ids.TryGetValue(code, out var known))
                return known;
        }
        await using var scope = scopes.CreateAsyncScope();
        var found = await scope.ServiceProvider.GetRequiredService<FindAgency>().RunAsync(code, stop);
        lock (_writing)
        {
            if (found is { } id)
                _ids[code] = id;
        }
        return found;
    }
}
