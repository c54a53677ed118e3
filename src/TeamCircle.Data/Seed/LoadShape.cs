namespace TeamCircle.Data.Seed;

/// <summary>The shape of the made-up rows: what is promised, and who gives it where and when.</summary>
internal static class LoadShape
{
    public const string Zone = "America/Los_Angeles";
    public const int Services = 5;
    public const int Goals = 2;

    /// <summary>Ids begin here in an agency of its own, far above those that the database gives out.</summary>
    public const int FirstId = 1_000_000_000;

    /// <summary>So many learners share one provider for each service, each at a time of day of their own.</summary>
    public const int LearnersAProvider = 8;

    /// <summary>Addresses of people of the made-up agency: a director, the family of its first learner, that learner's first provider and case manager.</summary>
    public const string Director = "director@load.example", Family = "family@load.example", Provider0 = "provider0@load.example", Manager0 = "manager0@load.example";

    public static readonly LocalDate FirstDay = new(2026, 8, 17);
    public static readonly LocalDate LastDay = new(2027, 5, 28);

    public static readonly (string Name, LocalDate Start, LocalDate End)[] Periods =
    [
        ("Period 1", new(2026, 8, 17), new(2026, 10, 16)),
        ("Period 2", new(2026, 10, 17), new(2027, 1, 3)),
        ("Period 3", new(2027, 1, 4), new(2027, 3, 5)),
        ("Period 4", new(2027, 3, 6), new(2027, 5, 28)),
    ];

    /// <summary>Days on which no school is, as published.</summary>
    public static IEnumerable<LocalDate> Closures =>
        [new(2026, 9, 7), new(2026, 11, 26), new(2026, 11, 27), .. Enumerable.Range(0, 12).Select(i => new LocalDate(2026, 12, 21).PlusDays(i)), new(2027, 1, 18), new(2027, 2, 15)];

    public static int Learner(int number) => FirstId + number;

    public static int Service(int learner, int service) => FirstId + learner * Services + service;

    public static int Goal(int learner, int goal) => FirstId + learner * Goals + goal;

    /// <summary>A learner's routine; its one version has the same number.</summary>
    public static int Routine(int learner) => FirstId + learner;

    public static int Provider(int learner, int service) => FirstId + learner / LearnersAProvider * Services + service;

    /// <summary>The weekdays on which a service has a visit in a week; whether a late slot of the day is used, so that no two overlap.</summary>
    public static (IsoDayOfWeek Day, bool IsLate)[] Weekdays(int service, int week) => (service, week % 4) switch
    {
        (0, _) => [(IsoDayOfWeek.Monday, false), (IsoDayOfWeek.Wednesday, false)],
        (1, _) => [(IsoDayOfWeek.Tuesday, false)],
        (2, _) => [(IsoDayOfWeek.Thursday, false)],
        (3, 0 or 2) => [(IsoDayOfWeek.Friday, false)],
        (3, _) => [(IsoDayOfWeek.Monday, true), (IsoDayOfWeek.Friday, false)],
        (_, 0) => [(IsoDayOfWeek.Tuesday, true), (IsoDayOfWeek.Wednesday, true)],
        _ => [(IsoDayOfWeek.Wednesday, true)],
    };

    /// <summary>Start of a visit: learners of one provider come one after the other.</summary>
    public static LocalTime Start(int learner, bool isLate) =>
        new LocalTime(8, 0).PlusMinutes(45 * ((learner + (isLate ? LearnersAProvider / 2 : 0)) % LearnersAProvider));

    /// <summary>Start of a make-up: after all other visits of the day.</summary>
    public static LocalTime MakeUpStart(int learner) => new LocalTime(15, 30).PlusMinutes(40 * (learner % LearnersAProvider));

    /// <summary>Make-ups of a service are on a weekday of its own.</summary>
    public static IsoDayOfWeek MakeUpDay(int service) => (IsoDayOfWeek)(service + 1);
}
