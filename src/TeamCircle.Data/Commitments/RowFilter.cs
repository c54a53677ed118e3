namespace TeamCircle.Data.Commitments;

/// <summary>Which rows a reading asks for: those of an agency, or of some of its learners.</summary>
/// <remarks>The walls hold whatever is asked; saying it in the query lets the right index be used.</remarks>
public sealed record RowFilter(int Agency, IReadOnlyList<int>? Learners)
{
    /// <summary>What a scope reaches; a person's list of learners goes into the queries.</summary>
    public static RowFilter Of(Scope scope) => new(scope.AgencyId, scope.Wall == Wall.Person ? scope.Learners : null);

    /// <summary>SQL that holds for the rows of a table, given the name it has in the query.</summary>
    public string Sql(string table, string learner = "learner_id")
    {
        var agency = $"{table}.agency_id = {Agency}";
        return Learners is null ? agency : $"{agency} and {table}.{learner} = any ('{{{string.Join(',', Learners)}}}')";
    }
}
