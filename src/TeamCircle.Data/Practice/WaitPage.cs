using TeamCircle.Core.Practice;

namespace TeamCircle.Data.Practice;

/// <summary>How long a learner takes to respond, in one routine or for one goal.</summary>
/// <param name="Id">The routine's or the goal's.</param>
/// <param name="Name">The routine's name or the goal's heading.</param>
/// <param name="People">Names of the staff who practised; nobody of the family.</param>
public sealed record WaitPage(int Id, int LearnerId, string Learner, string Name, WaitReport Report, IReadOnlyDictionary<int, string> People);

/// <summary>One routine, many hands.</summary>
/// <param name="Hands">Staff only.</param>
/// <param name="Observed">The trials of all practices that two observers scored.</param>
/// <param name="ObservedPractices">How often a practice was scored a second time.</param>
public sealed record HandsPage(
    int Id, int LearnerId, string Learner, string Name, IReadOnlyList<HandsNamed> Hands, IReadOnlyList<TrialScoredTwice> Observed, int ObservedPractices);

/// <param name="AsNewPerson">How many of the practices they took on days on which they stood in for somebody.</param>
public sealed record HandsNamed(string Name, Hands Hands, int AsNewPerson);
