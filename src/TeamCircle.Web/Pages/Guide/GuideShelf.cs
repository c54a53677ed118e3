using TeamCircle.Core.People;

namespace TeamCircle.Web.Pages.Guide;

/// <summary>One guide on the shelf.</summary>
/// <param name="Name">Its file's name without ending, and its address below /help.</param>
public sealed record ShelvedGuide(string Name, GuideText Text);

/// <summary>Which guides somebody finds under Help: their own roles' first, then those of the people they work with.</summary>
/// <remarks>What is in them is no secret; a family is spared the staff's words, and a reviewer what is none of theirs.</remarks>
public static class GuideShelf
{
    /// <summary>The guide of an outside reviewer, who reads no other.</summary>
    public const string Reviewer = "reviewer";

    private static readonly (string Name, Role Role)[] All =
    [
        ("provider", Role.Provider), ("case-manager", Role.CaseManager), ("administrator", Role.Administrator), ("director", Role.Director),
        ("operator", Role.Administrator), (Reviewer, Role.Reviewer),
    ];

    public static IReadOnlyList<ShelvedGuide> Own(Caller caller) => [.. All.Where(g => caller.Is(g.Role)).Select(g => Take(g.Name))];

    /// <summary>Those of others; none for a reviewer.</summary>
    public static IReadOnlyList<ShelvedGuide> Others(Caller caller) =>
        caller.IsStaff ? [.. All.Where(g => !caller.Is(g.Role) && g.Role != Role.Reviewer).Select(g => Take(g.Name))] : [];

    /// <summary>Null where there is no such guide, or it is none of theirs.</summary>
    public static GuideText? Find(Caller caller, string name) =>
        Array.Exists(All, g => g.Name == name) && (caller.IsStaff || name == Reviewer) ? GuideFiles.Find(name) : null;

    private static ShelvedGuide Take(string name) => new(name, GuideFiles.Find(name)!);
}
