namespace TeamCircle.Web.Ui;

/// <summary>What stands where a list has nothing in it: why, and the next act.</summary>
/// <param name="Words">One or two sentences.</param>
/// <param name="Act">The words of the next act's link; null where there is nothing to do, or not for this reader.</param>
/// <param name="Address">Where it leads; a form on the same page by its id.</param>
/// <param name="Otherwise">What a reader without an act reads in its place: who acts, or when something will stand here; null where the words say it all.</param>
public sealed record EmptyState(string Words, string? Act = null, string? Address = null, string? Otherwise = null);
