using TeamCircle.Core.Learners;
using TeamCircle.Core.People;
using TeamCircle.Core.Time;

namespace TeamCircle.Core.Import;

/// <summary>Reads people and learners.</summary>
internal sealed class ReadPeople(Register register, Findings findings)
{
    // A director is the second person for much of what an administrator does, and a reviewer comes with papers: neither comes by file.
    private static readonly Role[] RolesInFiles = [Role.Provider, Role.CaseManager, Role.Administrator, Role.Family];

    public List<PersonLine> People(RawTable table)
    {
        var good = new List<PersonLine>();
        var reader = new TableReader(table, findings);
        foreach (var row in reader.Rows())
        {
            var (email, name) = (Email(row), row.Text("name"));
            var roles = Roles(row);
            var disciplines = Disciplines(row);
            var credential = row.TextOrNone("credential");
            if (email is not null)
                reader.IsFirst(row, "email", "This e-mail stands", email);
            if (!row.IsGood)
            {
                register.Refused(FileKind.People, row, row.Cell("email"));
                continue;
            }
            register.AddPerson(email!);
            good.Add(new(row.File, row.Line, email!, name!, roles, disciplines, credential));
        }
        return good;
    }

    public List<LearnerLine> Learners(RawTable table)
    {
        var good = new List<LearnerLine>();
        var reader = new TableReader(table, findings);
        foreach (var row in reader.Rows())
        {
            var (code, name) = (row.Text("code"), row.Text("name"));
            var (start, end) = (row.Day("plan start"), row.Day("plan end"));
            var manager = register.Person(row, "case manager");
            var (team, family) = (register.People(row, "team"), register.People(row, "family"));
            var minutes = row.Whole("most minutes a day", 0, 24 * 60);
            var district = row.TextOrNone("sending district");
            if (district?.Length > LearnerRules.LongestDistrict)
                row.Refuse("sending district", $"A district's name has at most {LearnerRules.LongestDistrict} letters.");
            row.InOrder(start, end, "plan end");
            if (code is not null)
                reader.IsFirst(row, "code", "This code stands", code);
            if (!row.IsGood)
            {
                register.Refused(FileKind.Learners, row, row.Cell("code"));
                continue;
            }
            var stored = register.Learner(code!);
            var line = new LearnerLine(row.File, row.Line, stored?.Code ?? code!, name!, start!.Value, end!.Value, manager!, team, family, minutes!.Value, district);
            register.Set(new LearnerFact(line.Code, WithPlan(stored, DateRange.Of(line.PlanStart, line.PlanEnd))));
            good.Add(line);
        }
        return good;
    }

    /// <summary>The plan with the same first day, or else one that overlaps, gets the dates of the file; otherwise it is a new plan.</summary>
    private static List<DateRange> WithPlan(LearnerFact? stored, DateRange plan)
    {
        List<DateRange> plans = [.. stored?.Plans ?? []];
        var known = plans.FindIndex(p => p.First == plan.First);
        if (known < 0)
            known = plans.FindIndex(p => p.Touches(plan));
        if (known < 0)
            plans.Add(plan);
        else
            plans[known] = plan;
        return [.. plans.OrderBy(p => p.First)];
    }

    private static string? Email(RowCells row)
    {
        if (row.Text("email") is not { } email)
            return null;
        if (IsAddress(email))
            return email;
        row.Refuse("email", "This is not an e-mail address.");
        return null;
    }

    internal static bool IsAddress(string email)
    {
        var at = email.IndexOf('@', StringComparison.Ordinal);
        return at > 0 && at == email.LastIndexOf('@') && at < email.Length - 1 && email.Length <= 254 && !email.Any(c => char.IsWhiteSpace(c) || c is ';' or ',');
    }

    private static List<Role> Roles(RowCells row)
    {
        var roles = new List<Role>();
        foreach (var word in row.Parts("roles"))
        {
            if (Words.Find<Role>(word) is { } role && RolesInFiles.Contains(role))
                roles.Add(role);
            else
                row.Refuse("roles", $"This role is not known here. Write {RowCells.Choice(RolesInFiles)}, several with semicolons between them.");
        }
        if (roles.Count == 0)
            row.Refuse("roles", "Every person needs a role.");
        return [.. roles.Distinct()];
    }

    private static List<Discipline> Disciplines(RowCells row)
    {
        var disciplines = new List<Discipline>();
        foreach (var word in row.Parts("disciplines"))
        {
            if (Words.Find<Discipline>(word) is { } discipline)
                disciplines.Add(discipline);
            else
                row.Refuse("disciplines", $"This discipline is not known here. Write {RowCells.Choice(Enum.GetValues<Discipline>())}.");
        }
        return [.. disciplines.Distinct()];
    }
}
