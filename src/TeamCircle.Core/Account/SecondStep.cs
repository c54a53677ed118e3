using TeamCircle.Core.People;

namespace TeamCircle.Core.Account;

/// <summary>What was shown beside the first step (a password, or the word of the agency's identity provider).</summary>
public enum SecondStep
{
    /// <summary>Nothing: one factor was shown.</summary>
    None,

    /// <summary>A code of an authenticator app.</summary>
    Code,

    /// <summary>One of the codes that were printed for the day on which the phone is lost.</summary>
    RecoveryCode,

    /// <summary>A passkey that asked for its owner (a finger, a face, a PIN). Shown alone it is both factors: something one has, and something one is or knows.</summary>
    Passkey,

    /// <summary>The agency's identity provider says that it asked for two factors, and the portal was told to believe it.</summary>
    Provider,
}

/// <summary>What still stands between a sign-in and the pages it is for.</summary>
public enum Lack
{
    Nothing,

    /// <summary>The account has a second factor, and it was not shown.</summary>
    SecondStep,

    /// <summary>The account needs a second factor and has none yet.</summary>
    Factor,

    /// <summary>The agency's staff sign in through its identity provider, and this sign-in came by a password or a passkey.</summary>
    Provider,
}

/// <summary>
/// The wall of signing in: nobody who works for an agency, and no outside reviewer, reaches a learner's data on a password alone; a family does
/// where its agency says so, as long as they have set up no second factor themselves.
/// </summary>
/// <remarks>OWASP ASVS 5.0, 6.3.3. A calendar feed is a secret of its own and shows no learner (6.3.4).</remarks>
public static class SecondStepRules
{
    /// <param name="shown">What this sign-in has shown beside the first step.</param>
    /// <param name="hasFactor">Whether the account has an authenticator or a passkey.</param>
    /// <param name="isDemonstration">An account with a known passphrase and invented records: its password is enough.</param>
    /// <param name="caller">As whom they act; null before an agency is chosen, when only the account's own pages are in reach.</param>
    /// <param name="familiesNeedIt">What that agency has set for families.</param>
    public static Lack LackOf(SecondStep shown, bool hasFactor, bool isDemonstration, Caller? caller, bool familiesNeedIt) =>
        shown is not SecondStep.None ? Lack.Nothing
        : hasFactor ? Lack.SecondStep
        : isDemonstration || caller is null || !IsNeededBy(caller, familiesNeedIt) ? Lack.Nothing
        : Lack.Factor;

    /// <summary>Whether somebody in these roles needs a second factor. Who is family and anything else besides in the same agency does.</summary>
    public static bool IsNeededBy(Caller caller, bool familiesNeedIt) => familiesNeedIt || caller.Roles.Any(r => r is not Role.Family);
}
