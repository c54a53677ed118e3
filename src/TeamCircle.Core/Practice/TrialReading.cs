namespace TeamCircle.Core.Practice;

/// <summary>Walks once through a trial's events.</summary>
internal sealed class TrialReading
{
    private readonly IReadOnlyList<AgreedPrompt> _order;
    private readonly List<PromptGiven> _prompts = [];
    private readonly List<int> _attempts = [];

    /// <summary>Since when the wait runs; while the learner tries, since when they do.</summary>
    private int _since;
    private int _waited;
    private bool _trying;
    private int? _responded, _completed, _censored, _waitThatEnded;

    private TrialReading(IReadOnlyList<AgreedPrompt> order) => _order = order;

    public static TrialTimeline Read(Trial trial, IReadOnlyList<AgreedPrompt> order)
    {
        var events = Happened(trial.Events);
        var (response, promptsNeeded) = ResponseOf(trial, events);
        var end = EndOf(trial, events, promptsNeeded);
        var untimed = new TrialTimeline { Trial = trial, End = end, Response = response, PromptsNeeded = end == TrialEnd.Refused ? null : promptsNeeded };
        var cue = events.FindIndex(e => e.Kind == TrialEventKind.CueEnded);
        if (trial.Remembered is not null || trial.Interrupted || trial.AtOnce || cue < 0)
            return untimed;
        var reading = new TrialReading(order) { _since = events[cue].At };
        foreach (var one in events.Skip(cue + 1))
            reading.Take(one);
        return reading.Timed(untimed, events[cue].At);
    }

    private TrialTimeline Timed(TrialTimeline untimed, int start) => untimed with
    {
        TimeToRespond = _responded - start,
        Completed = _completed - start,
        CensoredAt = _responded is null ? _censored - start : null,
        Attempts = [.. _attempts.Select(a => a - start)],
        WaitThatEndedInResponse = _waitThatEnded,
        Prompts = _prompts,
        WaitKept = _prompts.Exists(p => p.IsEarly) ? false
            : _prompts.Count > 0 ? (_prompts.TrueForAll(p => p.Agreed is null) ? null : true)
            : _order.Any(p => p.WaitSeconds is not null) ? true : null,
    };

    /// <summary>The events at the time at which they happened: late taps put back, none before the one before it.</summary>
    private static List<TrialEvent> Happened(IReadOnlyList<TrialEvent> events)
    {
        var happened = new List<TrialEvent>(events.Count);
        foreach (var one in events)
        {
            var at = one.Late ? Math.Max(happened.Count > 0 ? happened[^1].At : 0, one.At - TrialTimeline.LateTap) : one.At;
            happened.Add(one with { At = at });
            if (one.Kind is TrialEventKind.Refusal or TrialEventKind.End)
                break;
        }
        return happened;
    }

    /// <summary>The response hoped for, or else the first one, and how many prompts came before it.</summary>
    private static (ResponseKind? Response, int? PromptsNeeded) ResponseOf(Trial trial, List<TrialEvent> events)
    {
        if (trial.Remembered is { } remembered)
            return (remembered.PromptsNeeded is null ? null : ResponseKind.HopedFor, remembered.PromptsNeeded);
        var hopedFor = events.FindIndex(e => e is { Kind: TrialEventKind.Response, Response: ResponseKind.HopedFor });
        var response = hopedFor >= 0 ? hopedFor : events.FindIndex(e => e.Kind == TrialEventKind.Response);
        return response < 0 ? (null, null) : (events[response].Response, events.Take(response).Count(e => e.Kind == TrialEventKind.Prompt));
    }

    private static TrialEnd EndOf(Trial trial, List<TrialEvent> events, int? promptsNeeded)
    {
        var hopedFor = events.Exists(e => e is { Kind: TrialEventKind.Response, Response: ResponseKind.HopedFor });
        if (!hopedFor && events.Exists(e => e.Kind == TrialEventKind.Refusal))
            return TrialEnd.Refused;
        if (promptsNeeded is not null)
            return TrialEnd.Response;
        var wasSeen = trial.Remembered is not null || (!trial.Interrupted && events.Exists(e => e.Kind == TrialEventKind.End));
        return wasSeen ? TrialEnd.NoResponse : TrialEnd.Unknown;
    }

    private void Take(TrialEvent one)
    {
        switch (one.Kind)
        {
            case TrialEventKind.Begun when !_trying:
                Pause(one.At, trying: true);
                break;
            case TrialEventKind.StoppedTrying when _trying:
                KeepAttempt();
                (_trying, _since) = (false, one.At);
                break;
            case TrialEventKind.Response:
                Respond(one.At);
                break;
            case TrialEventKind.Prompt:
                Prompt(one);
                break;
            case TrialEventKind.Refusal or TrialEventKind.End:
                KeepAttempt();
                _censored ??= one.At;
                break;
        }
    }

    private void Pause(int at, bool trying)
    {
        if (!_trying)
            _waited += at - _since;
        (_trying, _since) = (trying, at);
    }

    private void Respond(int at)
    {
        if (_prompts.Count == 0 && _responded is null)
            (_responded, _completed) = (_trying ? _since : at, at);
        Pause(at, trying: false);
        _waitThatEnded ??= _waited;
    }

    private void Prompt(TrialEvent one)
    {
        KeepAttempt();
        var wasTrying = _trying;
        var begun = _since;
        Pause(one.At, wasTrying);
        _prompts.Add(new(one.Prompt, one.At, _waited, AgreedFor(one.Prompt), wasTrying));
        _censored ??= one.At;
        (_waited, _since) = (0, wasTrying ? begun : one.At);
    }

    /// <summary>An attempt that came to no response before any prompt.</summary>
    private void KeepAttempt()
    {
        if (_trying && _prompts.Count == 0 && _responded is null)
            _attempts.Add(_since);
    }

    private int? AgreedFor(string? key)
    {
        var agreed = key is not null ? _order.FirstOrDefault(p => p.Key == key) : _order.ElementAtOrDefault(_prompts.Count);
        return agreed?.WaitSeconds * 1000;
    }
}
