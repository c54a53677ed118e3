namespace TeamCircle.Data.Account;

/// <summary>Whether accounts of the demonstration, whose passphrase is known, may sign in to this portal.</summary>
/// <param name="AreLetIn">Stated by whoever starts the portal: only in Development. Elsewhere such an account is as if it had ended.</param>
public sealed record DemonstrationAccounts(bool AreLetIn);
