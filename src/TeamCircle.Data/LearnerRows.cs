namespace TeamCircle.Data;

/// <summary>Rows about some learners of an agency.</summary>
internal static class LearnerRows
{
    /// <remarks>One learner is asked for by itself: of a list the database does not know how long it will be, and plans anew each time.</remarks>
    public static IQueryable<T> OfLearners<T>(this IQueryable<T> rows, int agency, IReadOnlyList<int> learners) where T : class, ILearnerRow
    {
        if (learners is not [var one])
            return rows.Where(r => r.AgencyId == agency && learners.Contains(r.LearnerId));
        return rows.Where(r => r.AgencyId == agency && r.LearnerId == one);
    }
}
