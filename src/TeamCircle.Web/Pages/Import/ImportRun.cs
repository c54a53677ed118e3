using TeamCircle.Core.Import;
using TeamCircle.Core.People;
using TeamCircle.Data.Import;

namespace TeamCircle.Web.Pages.Import;

public enum ImportState
{
    /// <summary>Somebody has to say which events of a calendar are closures.</summary>
    Choosing,

    /// <summary>A OneRoster set was read: somebody completes the files that came of it. Nothing is stored.</summary>
    Completing,
    Running,

    /// <summary>Everything is stored, or was known.</summary>
    Done,

    /// <summary>Rows were refused; the good ones are stored only where that was asked for.</summary>
    Refused,

    /// <summary>A fault of ours; nothing was stored.</summary>
    Failed,
}

/// <summary>One person's import as it stands: kept in memory from the upload until they are done with it.</summary>
public sealed class ImportRun(Caller caller, Guid operation, BroughtFiles brought, IReadOnlyList<RawEvent> events, RosterReading? roster = null) : IProgress<ImportProgress>
{
    public Caller Caller => caller;

    /// <summary>The upload's own id.</summary>
    public Guid Operation => operation;

    /// <summary>All-day events of calendar files.</summary>
    public IReadOnlyList<RawEvent> Events => events;
    public IReadOnlyList<string> PassedOver => brought.PassedOver;
    public IReadOnlyList<BroughtFile> Files => brought.Files;

    /// <summary>What a OneRoster set says; null for the agency's own files.</summary>
    public RosterReading? Roster => roster;

    private readonly Lock _gate = new();
    private bool _begun;

    public ImportState State { get; private set; } = roster is not null ? ImportState.Completing : events.Count > 0 ? ImportState.Choosing : ImportState.Running;
    public ImportProgress Progress { get; private set; } = new("Waiting", 0, 1);

    /// <summary>What the import did; null until it has ended.</summary>
    public ImportResult? Result { get; private set; }

    /// <summary>The events that were chosen as closures.</summary>
    public IReadOnlySet<string> Closures { get; private set; } = new HashSet<string>();

    public void Report(ImportProgress value) => Progress = value;

    /// <returns>False where it runs already.</returns>
    internal bool Begin(IReadOnlySet<string>? closures)
    {
        lock (_gate)
        {
            if (_begun && State == ImportState.Running)
                return false;
            _begun = true;
            Closures = closures ?? Closures;
            (State, Result, Progress) = (ImportState.Running, null, new("Waiting", 0, 1));
            return true;
        }
    }

    internal void End(ImportResult? result)
    {
        lock (_gate)
        {
            Result = result;
            State = result is null ? ImportState.Failed : result.Problems.Count > 0 ? ImportState.Refused : ImportState.Done;
        }
    }
}
