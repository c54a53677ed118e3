namespace TeamCircle.Data.Account;

/// <summary>The kinds of what happens to an account; an account's events are its trail of changes.</summary>
public static class AccountEvent
{
    public const string SignedIn = "signed in";
    public const string SignInRefused = "sign-in refused";
    public const string PasswordGivenAgain = "password given again";
    public const string SignedOut = "signed out";
    public const string SignInEnded = "sign-in ended";
    public const string Joined = "joined an agency";
    public const string LinkMade = "link made";
    public const string FeedMade = "calendar address made";
    public const string FeedEnded = "calendar address ended";
    public const string PasswordChanged = "password changed";
    public const string PasswordSetByLink = "password set by a link";
    public const string SecondStepTaken = "second step taken";
    public const string SecondStepRefused = "second step refused";
    public const string AuthenticatorSet = "authenticator set up";
    public const string AuthenticatorRemoved = "authenticator removed";
    public const string PasskeyAdded = "passkey added";
    public const string PasskeyRemoved = "passkey removed";
    public const string RecoveryCodesMade = "recovery codes made";
    public const string FactorsRemoved = "factors removed";
    public const string EmailAsked = "change of e-mail address asked for";
    public const string EmailChanged = "e-mail address changed";
    public const string RuleSet = "rule for signing in set";
    public const string ProviderLinked = "identity provider linked";
    public const string ProviderUnlinked = "identity provider unlinked";
}
