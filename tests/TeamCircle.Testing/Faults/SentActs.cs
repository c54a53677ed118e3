using System.Collections.Concurrent;
using System.Text.Json;
using TeamCircle.Data.Devices;

namespace TeamCircle.Testing.Faults;

/// <summary>
/// What clients know of the acts that they sent: attempted (A), acknowledged as stored or set aside (K), refused (F), and sent without ever being
/// answered (U). Several clients may tell it at once.
/// </summary>
public sealed class SentActs
{
    private readonly ConcurrentDictionary<Guid, JsonElement> _attempted = [];
    private readonly ConcurrentDictionary<Guid, OperationEnd> _acknowledged = [];
    private readonly ConcurrentDictionary<Guid, byte> _refused = [];
    private readonly ConcurrentDictionary<Guid, byte> _unknown = [];

    /// <summary>A: everything that was ever to be sent, as it was sent.</summary>
    public IReadOnlyDictionary<Guid, JsonElement> Attempted => _attempted;

    /// <summary>K, and as what.</summary>
    public IReadOnlyDictionary<Guid, OperationEnd> Acknowledged => _acknowledged;

    /// <summary>F.</summary>
    public IReadOnlySet<Guid> Refused => _refused.Keys.ToHashSet();

    /// <summary>U: each act that was sent at least once in a request to which no answer came; a later answer does not take it out.</summary>
    public IReadOnlySet<Guid> Unknown => _unknown.Keys.ToHashSet();

    public static Guid IdOf(JsonElement operation) => operation.GetProperty("id").GetGuid();

    public void Attempt(JsonElement operation)
    {
        if (!_attempted.TryAdd(IdOf(operation), operation))
            throw new InvalidOperationException("An act is attempted once, and sent as often as it takes.");
    }

    public bool IsOpen(Guid id) => !_acknowledged.ContainsKey(id) && !_refused.ContainsKey(id);

    /// <summary>No answer came to these.</summary>
    public void Lose(IEnumerable<JsonElement> operations)
    {
        foreach (var operation in operations)
            _unknown.TryAdd(IdOf(operation), 0);
    }

    /// <summary>Takes the answers to a request.</summary>
    /// <exception cref="InvalidOperationException">A repeat was answered otherwise than before.</exception>
    public void Hear(JsonElement answers)
    {
        foreach (var answer in answers.EnumerateArray())
        {
            var (id, end) = (IdOf(answer), answer.GetProperty("end").Deserialize<OperationEnd>(DeviceJson.Options));
            if (end == OperationEnd.Refused)
                _refused.TryAdd(id, 0);
            else if (_acknowledged.GetOrAdd(id, end) is var first && first != end)
                throw new InvalidOperationException($"{id} was {first}, and a repeat says {end}.");
        }
    }
}
