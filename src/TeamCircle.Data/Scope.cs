using TeamCircle.Core.People;

namespace TeamCircle.Data;

/// <summary>What a transaction may reach: the database role it takes, and the settings that the policies read.</summary>
/// <param name="Wall">Person: the learners listed. Agency: the whole agency, on a stated ground. Job: the same, by the clock.</param>
/// <param name="Learners">For <see cref="Wall.Person"/> only; at most <see cref="MostLearners"/>.</param>
/// <param name="Staff">Whether colleagues' names may be read.</param>
/// <param name="Ground">Why, in words: stands in every change that the transaction makes.</param>
public sealed record Scope(Wall Wall, int AgencyId, int PersonId, IReadOnlyList<int> Learners, bool Staff, string Ground)
{
    /// <summary>A longer list makes one learner's queries slow (measured: 10.7 instead of 0.5 ms at 10,000).</summary>
    public const int MostLearners = 500;

    /// <summary>The learners to whom the caller stands in some relation.</summary>
    /// <exception cref="InvalidOperationException">More than <see cref="MostLearners"/>: read as an agency, with a ground.</exception>
    public static Scope Of(Caller caller, string ground = "own work") =>
        caller.Learners.Count <= MostLearners
            ? new(Wall.Person, caller.AgencyId, caller.PersonId, caller.Learners, caller.IsStaff, ground)
            : throw new InvalidOperationException("Too many learners for one person's list; use WholeAgency with a ground.");

    /// <summary>One learner only, whatever else the caller may see.</summary>
    public static Scope OfLearner(Caller caller, int learner, string ground = "own work") =>
        new(Wall.Person, caller.AgencyId, caller.PersonId, caller.Learners.Contains(learner) ? [learner] : [], caller.IsStaff, ground);

    public static Scope WholeAgency(Caller caller, string ground) =>
        new(Wall.Agency, caller.AgencyId, caller.PersonId, [], true, ground);

    public static Scope Job(int agency, int person, string ground) => new(Wall.Job, agency, person, [], true, ground);
}

public enum Wall
{
    Person,
    Agency,
    Job,
}
