using TeamCircle.Core.MakeUps;
using TeamCircle.Core.People;
using TeamCircle.Data.MakeUps;

namespace TeamCircle.Web.Pages.MakeUps;

public enum MakeUpState
{
    /// <summary>Another search is going on; this one comes after it.</summary>
    Waiting,
    Running,
    Done,

    /// <summary>A person ended it; the best so far is kept.</summary>
    Stopped,

    /// <summary>A fault of ours; what was found before stands.</summary>
    Failed,
}

/// <summary>One person's search for make-up visits as it stands: kept in memory until they look for others.</summary>
public sealed class MakeUpRun(Caller caller, MakeUpAsk ask, MakeUpFacts facts) : IDisposable
{
    private readonly Lock _gate = new();
    private readonly CancellationTokenSource _stop = new();
    private readonly HashSet<(int Need, DayTime When)> _accepted = [];

    public Caller Caller => caller;

    public MakeUpAsk Ask => ask;

    /// <summary>The calendar as it stood when the search began.</summary>
    public MakeUpFacts Facts => facts;

    public MakeUpState State { get; private set; }

    /// <summary>At least the one that was found at once.</summary>
    public IReadOnlyList<MakeUpAnswer> Proposals { get; private set; } = [MakeUpPlanner.First(facts.Problem)];

    public bool IsOver => State is not (MakeUpState.Waiting or MakeUpState.Running);

    /// <summary>Minutes of the proposed visits that now stand on the calendar.</summary>
    public int AcceptedMinutes
    {
        get
        {
            lock (_gate)
                return _accepted.Sum(a => a.When.Minutes);
        }
    }

    public bool IsAccepted(ProposedVisit visit)
    {
        lock (_gate)
            return _accepted.Contains((visit.Need, visit.When));
    }

    /// <summary>Remembers that a proposed visit now stands on the calendar.</summary>
    public void Accept(int need, DayTime when)
    {
        lock (_gate)
            _accepted.Add((need, when));
    }

    /// <summary>Ends the search; the best so far is kept.</summary>
    public void Stop() => _stop.Cancel();

    /// <summary>Searches, and keeps each better proposal on the way.</summary>
    internal async Task SearchAsync(Effort effort, CancellationToken closing)
    {
        using var either = CancellationTokenSource.CreateLinkedTokenSource(_stop.Token, closing);
        try
        {
            either.Token.ThrowIfCancellationRequested();
            State = MakeUpState.Running;
            Proposals = await SearchProcess.RunAsync(facts.Problem, effort, better => Proposals = [better], either.Token);
            State = MakeUpState.Done;
        }
        catch (OperationCanceledException)
        {
            Proposals = [MakeUpPlanner.Explain(facts.Problem, Proposals[0])];
            State = MakeUpState.Stopped;
        }
    }

    internal void Fail() => State = MakeUpState.Failed;

    public void Dispose() => _stop.Dispose();
}
