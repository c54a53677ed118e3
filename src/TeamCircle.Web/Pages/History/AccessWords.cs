using TeamCircle.Core;
using TeamCircle.Core.People;
using TeamCircle.Data.History;

namespace TeamCircle.Web.Pages.History;

/// <summary>The record of access in words that a parent can read: for the sheet that is printed on request (34 CFR 300.614, 99.32).</summary>
internal static class AccessWords
{
    private static readonly Dictionary<string, string> Grounds = new()
    {
        [Words.Of(Relation.Team)] = "works with your child",
        [Words.Of(Relation.CaseManager)] = "your child's case manager",
        [Words.Of(Relation.Substitute)] = "stood in for somebody on the team that day",
        [Words.Of(Relation.Assistant)] = "works with your child under a supervisor",
        [Words.Of(Relation.Family)] = "your child's family",
        [Words.Of(Relation.Reviewer)] = "looks at the record from outside, with leave",
        [Words.Of(Ground.Administrator)] = "looks after the portal for the agency",
        [Words.Of(Ground.AdministratorReason)] = "looks after the agency, and gave a reason",
        [Words.Of(Ground.Director)] = "director of the agency",
        [Words.Of(Ground.Staff)] = "works for the agency",
    };

    /// <summary>Why somebody could look; the record's own words where there are no plainer ones.</summary>
    public static string ToParent(AccessShown entry) => entry.Refused ? "was not let in" : Grounds.GetValueOrDefault(entry.Ground, entry.Ground);
}
