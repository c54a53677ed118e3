using TeamCircle.Core.MakeUps;

namespace TeamCircle.Core.Tests.MakeUps;

/// <summary>Bram Nakamura's occupational therapy for Wren lacks 60 minutes; both have the mornings of two days, from 9 to 12.</summary>
internal sealed class AProblem
{
    private const int Hour = 60;
    private readonly List<Need> _needs = [new("therapy", 1, "Wren", "Bram", "Wren's home", 60, 30, 60)];
    private readonly List<BusyVisit> _busy = [];
    private int[] _days = [1, 2];
    private (int Start, int End) _bram = (9 * Hour, 12 * Hour);
    private (int Start, int End) _wren = (9 * Hour, 12 * Hour);
    private int? _bramLimit;
    private int? _wrenLimit;
    private int _travel = 30;

    public AProblem Days(params int[] days) => Set(() => _days = days);

    public AProblem Lacking(int minutes, int smallest, int largest) =>
        Set(() => _needs[0] = _needs[0] with { Minutes = minutes, Smallest = smallest, Largest = largest });

    public AProblem And(Need need) => Set(() => _needs.Add(need));

    public AProblem Busy(string? line, string provider, string? learner, string place, int day, int start, int end) =>
        Set(() => _busy.Add(new(line, provider, learner, place, new(day, start, end))));

    public AProblem BramWorks(int start, int end) => Set(() => _bram = (start, end));

    public AProblem BramHasAtMost(int minutes) => Set(() => _bramLimit = minutes);

    public AProblem WrenIsOpen(int start, int end) => Set(() => _wren = (start, end));

    public AProblem WrenHasAtMost(int minutes) => Set(() => _wrenLimit = minutes);

    public AProblem Travel(int minutes) => Set(() => _travel = minutes);

    public MakeUpProblem Build() => new()
    {
        Days = _days,
        GridMinutes = 15,
        Needs = _needs,
        Providers = [new("Bram", [.. _days.Select(d => new DayTime(d, _bram.Start, _bram.End))], _bramLimit)],
        Learners =
        [
            new("Wren", [.. _days.Select(d => new DayTime(d, _wren.Start, _wren.End))], _wrenLimit),
            new("Jonah", [.. _days.Select(d => new DayTime(d, 8 * Hour, 16 * Hour))], null),
        ],
        Busy = _busy,
        Travel = new([("Wren's home", "Jonah's home", _travel)]),
    };

    private AProblem Set(Action change)
    {
        change();
        return this;
    }
}
