using Npgsql;

namespace TeamCircle.Data.Commitments;

/// <summary>Which rows a reading asks for: those of an agency, or of some of its learners.</summary>
/// <remarks>The walls hold whatever is asked; saying it in the query lets the right index be used.</remarks>
public sealed record RowFilter(int Agency, IReadOnlyList<int>? Learners)
{
    private const int FewAtMost = 200;

    /// <summary>What a scope reaches; a person's list of learners goes into the queries.</summary>
    public static RowFilter Of(Scope scope) => new(scope.AgencyId, scope.Wall == Wall.Person ? scope.Learners : null);

    /// <summary>Whether it asks for so few learners that all their rows may be held at once.</summary>
    public bool IsFew => Learners is { Count: <= FewAtMost };

    /// <summary>Whether queries name agency and learners as <see cref="Parameters"/>, so that the database need not plan them anew for others; otherwise by their numbers.</summary>
    public bool IsBound { get; init; }

    /// <summary>The values of a bound filter.</summary>
    public NpgsqlParameter[] Parameters =>
        [new("agency", Agency), Learners is [var one] ? new("learner", one) : new("learners", Learners?.ToArray() ?? [])];

    /// <summary>SQL that holds for the rows of a table, given the name it has in the query.</summary>
    public string Sql(string table, string learner = "learner_id") => Learners is null
        ? OfAgency(table)
        : $"{OfAgency(table)} and {table}.{learner} {OneOf(Learners)}";

    // One is asked for by itself: of a list the database does not know how long it will be, and plans anew each time.
    private string OneOf(IReadOnlyList<int> learners) => (IsBound, learners) switch
    {
        (true, [_]) => "= @learner",
        (true, _) => "= any (@learners)",
        _ => $"= any ('{{{string.Join(',', learners)}}}')",
    };

    /// <summary>SQL that holds for all rows of the agency in a table.</summary>
    public string OfAgency(string table) => $"{table}.agency_id = {(IsBound ? "@agency" : Agency)}";
}
