namespace TeamCircle.Core.Import;

/// <summary>Makes rows of people.csv and learners.csv of the users of a OneRoster set.</summary>
internal sealed class RosterRows(IReadOnlyDictionary<string, RosterUser> users, IReadOnlySet<string> ids, Findings findings, string file)
{
    private readonly Dictionary<string, (RosterUser User, List<string> Roles)> _people = new(StringComparer.OrdinalIgnoreCase);
    private readonly Dictionary<string, int> _codes = new(StringComparer.OrdinalIgnoreCase);

    public RosterReading Run()
    {
        var enabled = users.Where(u => u.Value.IsEnabled).ToList();
        if (users.Count > enabled.Count)
            findings.Note(new(file, 0, "enabledUser", $"Users that are not enabled, and were left out: {users.Count - enabled.Count}."));
        if (enabled.Count(u => u.Value.Roles.Count == 0) is > 0 and var without)
            findings.Note(new(file, 0, "", $"Users with no role today, left out: {without}."));
        var ties = Ties();
        foreach (var (_, user) in enabled.Where(u => u.Value.IsStaff))
            AddStaff(user);
        foreach (var (id, user) in enabled.Where(u => u.Value.IsFamily))
            AddFamily(user, ties.Exists(t => t.Family == id));
        return new()
        {
            Learners = [.. enabled.Where(u => u.Value.IsStudent).Select(u => Learner(u.Key, u.Value, ties)).OfType<RosterLearner>()],
            People = [.. _people.Select(p => new RosterPerson(p.Key, p.Value.User.Name, p.Value.Roles))],
        };
    }

    /// <summary>Who belongs to whom: a set may say it on the learner's row, on the family's, or on both.</summary>
    private List<(string Learner, string Family)> Ties()
    {
        var ties = new List<(string, string)>();
        foreach (var (id, user) in users.Where(u => u.Value.IsEnabled))
        {
            foreach (var agent in user.Agents)
            {
                if (!ids.Contains(agent))
                    user.Row.Refuse("agentSourcedIds", "No row of users.csv has one of these sourcedIds.");
                else if (users.GetValueOrDefault(agent) is { IsEnabled: true } other)
                    ties.AddRange(Tie(id, user, agent, other));
            }
        }
        return [.. ties.Distinct()];
    }

    private static (string, string)[] Tie(string id, RosterUser user, string agent, RosterUser other)
    {
        if (user.IsStudent && other.IsFamily)
            return [(id, agent)];
        if (user.IsFamily && other.IsStudent)
            return [(agent, id)];
        if (user.IsStudent)
            user.Row.Note("agentSourcedIds", $"The user on line {other.Row.Line} is no parent, guardian or relative in roles.csv and was not taken for family.");
        return [];
    }

    private void AddStaff(RosterUser user)
    {
        if (user.Email.Length == 0)
            user.Row.Refuse("email", "Whoever works here signs in by e-mail: this must not be empty.");
        else if (Add(user, user.Roles.Select(r => r.Here).OfType<string>().Where(r => r != RosterRole.Family)) is { Count: 0 })
            user.Row.Note("", $"This user is {string.Join(", ", user.Roles.Select(r => r.Word))}, which is no role here: write one in people.csv, or take the row out.");
    }

    private void AddFamily(RosterUser user, bool isTied)
    {
        if (!isTied)
            user.Row.Note("agentSourcedIds", "This parent, guardian or relative is tied to no learner of the set and was left out.");
        else if (user.Email.Length == 0)
            user.Row.Note("email", "This parent, guardian or relative has no e-mail address to sign in with and was left out. Put them on the list when they have one.");
        else
            Add(user, [RosterRole.Family]);
        if (isTied && user.Email.Length > 0 && user.Roles.Exists(r => r.Word == "relative"))
            user.Row.Note("", "This user is a relative: keep them under the learner's family only if they may read the record.");
    }

    /// <returns>The person's roles by now; null where the row was refused.</returns>
    private List<string>? Add(RosterUser user, IEnumerable<string> roles)
    {
        if (!_people.TryGetValue(user.Email, out var person))
            _people[user.Email] = person = (user, []);
        if (!string.Equals(person.User.Name, user.Name, StringComparison.OrdinalIgnoreCase))
        {
            user.Row.Refuse("email", $"This e-mail stands on line {person.User.Row.Line} under another name.");
            return null;
        }
        person.Roles.AddRange(roles.Except(person.Roles).ToList());
        return person.Roles;
    }

    private RosterLearner? Learner(string id, RosterUser user, List<(string Learner, string Family)> ties)
    {
        var code = user.Identifier.Length > 0 ? user.Identifier : id;
        if (user.Identifier.Length == 0)
            user.Row.Note("identifier", "This learner has no identifier, so the sourcedId became the code: write a shorter one if you like. It stands where the name must not.");
        if (!_codes.TryAdd(code, user.Row.Line))
            user.Row.Refuse("identifier", $"This identifier stands on line {_codes[code]} too.");
        string[] family = [.. ties.Where(t => t.Learner == id).Select(t => users[t.Family].Email).Where(_people.ContainsKey).Distinct(StringComparer.OrdinalIgnoreCase)];
        return user.Row.IsGood ? new(code, user.Name, family) : null;
    }
}
