using TeamCircle.Core.Account;

namespace TeamCircle.Web.Ui;

/// <summary>A button that asks the browser for a passkey; the script shows it where the browser can.</summary>
/// <param name="Address">The page whose handlers ask and take the answer.</param>
/// <param name="Then">Where to go afterwards; null for where the person begins.</param>
/// <param name="Kept">A form that is sent afterwards, sealed; null where there is none.</param>
public sealed record PasskeyForm(string Address, string? Then, string? Kept, string Words);

/// <summary>What somebody must still show, or set up, before a form that they typed can be saved.</summary>
/// <param name="Kept">The form, sealed.</param>
public sealed record LackingForm(Lack Lacks, string Kept);
