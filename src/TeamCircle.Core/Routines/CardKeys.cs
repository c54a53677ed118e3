using System.Globalization;

namespace TeamCircle.Core.Routines;

/// <summary>The keys by which trials and differences find a step, a prompt or a caution again in another version.</summary>
public static class CardKeys
{
    /// <summary>Gives a key to whatever has none yet. A key is never given twice in a routine, also not after its step was removed.</summary>
    /// <param name="card">As written; what is new has an empty key, and so has what claims one that no earlier version gave or that stands before it already.</param>
    /// <param name="earlier">All earlier versions.</param>
    public static RoutineContent Give(RoutineContent card, IReadOnlyCollection<RoutineContent> earlier)
    {
        var steps = new Giver('s', earlier.SelectMany(e => e.Steps).Select(s => s.Key));
        var prompts = new Giver('p', earlier.SelectMany(e => e.Prompts).Select(p => p.Key));
        var cautions = new Giver('c', earlier.SelectMany(e => e.Cautions).Select(c => c.Key));
        return card with
        {
            Steps = [.. card.Steps.Select(s => s with { Key = steps.Next(s.Key) })],
            Prompts = [.. card.Prompts.Select(p => p with { Key = prompts.Next(p.Key) })],
            Cautions = [.. card.Cautions.Select(c => c with { Key = cautions.Next(c.Key) })],
        };
    }

    private sealed class Giver(char letter, IEnumerable<string> given)
    {
        private readonly HashSet<string> _free = [.. given];
        private int _last = given.Select(k => int.TryParse(k.AsSpan(1), NumberStyles.None, CultureInfo.InvariantCulture, out var n) ? n : 0).DefaultIfEmpty().Max();

        public string Next(string key) => _free.Remove(key) ? key : string.Create(CultureInfo.InvariantCulture, $"{letter}{++_last}");
    }
}
