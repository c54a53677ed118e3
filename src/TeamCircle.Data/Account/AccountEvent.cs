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
}
