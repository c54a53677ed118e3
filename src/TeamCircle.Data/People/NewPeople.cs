using TeamCircle.Core.People;

namespace TeamCircle.Data.People;

/// <summary>Whose record is that of a new person: a substitute's, on the day on which they stood in. It follows from the relation of that day and is stored nowhere.</summary>
internal static class NewPeople
{
    /// <summary>The relations by which somebody stood in; each has a last day.</summary>
    public static IQueryable<RelationRow> Of(PortalDb db, int agency) => db.Relations.Where(r => r.AgencyId == agency && r.Kind == Relation.Substitute);
}
