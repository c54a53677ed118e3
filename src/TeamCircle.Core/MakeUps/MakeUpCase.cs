using System.Globalization;
using System.Text.Json;
using NodaTime.Text;
using TeamCircle.Core.Cases;
using TeamCircle.Core.Time;

namespace TeamCircle.Core.MakeUps;

/// <summary>A case of kind <c>makeUp</c>.</summary>
public sealed record MakeUpCase(MakeUpProblem Problem, Effort Effort)
{
    private const int MostDays = 100;
    private const int MostNeeds = 300;
    private const int MostBusy = 20_000;
    private const int MostSeconds = 600;
    private const int MostMinutes = 100_000;

    /// <summary>Reads a case strictly.</summary>
    /// <exception cref="CaseException">A field is missing, unknown, of the wrong kind, or contradicts another.</exception>
    public static MakeUpCase Read(CaseField field)
    {
        field.Only("kind", "days", "gridMinutes", "needs", "providers", "learners", "busy", "travel", "seconds");
        var providers = ReadPeople(field.Get("providers"));
        var learners = ReadPeople(field.Get("learners"));
        var problem = new MakeUpProblem
        {
            Days = ReadDays(field.Get("days")),
            GridMinutes = field.Get("gridMinutes").Number(1, DayTime.MinutesOfADay),
            Needs = AtMost(MostNeeds, field.Get("needs"), need => ReadNeed(need, providers, learners)),
            Providers = providers,
            Learners = learners,
            Busy = AtMost(MostBusy, field.Get("busy"), ReadBusy),
            Travel = new(field.Get("travel").List(ReadLeg)),
        };
        if (problem.Needs.Select(n => (n.Line, n.Window)).Distinct().Count() != problem.Needs.Count)
            throw field.Get("needs").Wrong("names a window of a line twice");
        if (problem.MissingWay() is var (from, to))
            throw field.Get("travel").Wrong($"has no way from {from} to {to}");
        return new(problem, new(field.Get("seconds").Number(1, MostSeconds)));
    }

    /// <summary>Works the case out, and writes the answer as one object.</summary>
    public void Write(Utf8JsonWriter json)
    {
        var answer = MakeUpPlanner.Solve(Problem, Effort);
        json.WriteStartObject();
        WriteList(json, "visits", answer.Visits, visit =>
        {
            WriteNeed(json, visit.Need);
            json.WriteString("date", Date(visit.When.Day));
            json.WriteString("start", Clock(visit.When.Start));
            json.WriteString("end", Clock(visit.When.End));
        });
        WriteList(json, "unmet", answer.Unmet, unmet =>
        {
            WriteNeed(json, unmet.Need);
            json.WriteNumber("minutes", unmet.Minutes);
            json.WriteString("because", Code(unmet.Because));
        });
        WriteList(json, "levels", answer.Levels, level =>
        {
            json.WriteString("name", Code(level.Name));
            json.WriteNumber("value", level.Value);
            json.WriteNumber("bound", level.Bound);
            json.WriteBoolean("proven", level.IsProven);
        });
        json.WriteEndObject();
    }

    private static List<T> AtMost<T>(int most, CaseField field, Func<CaseField, T> read)
    {
        var list = field.List(read);
        return list.Count <= most ? list : throw field.Wrong(string.Create(CultureInfo.InvariantCulture, $"holds more than {most}"));
    }

    private static List<int> ReadDays(CaseField field)
    {
        var days = AtMost(MostDays, field, day => day.Date()).Order().ToList();
        return days.Distinct().Count() == days.Count ? days : throw field.Wrong("names a day twice");
    }

    private static Need ReadNeed(CaseField field, List<Availability> providers, List<Availability> learners)
    {
        field.Only("line", "window", "learner", "provider", "place", "minutes", "smallest", "largest");
        var smallest = field.Get("smallest").Number(1, DayTime.MinutesOfADay);
        return new(
            field.Get("line").Text(),
            field.Get("window").Date(),
            field.GetOrNull("learner") is { } learner ? Known(learner, learners, "learners") : null,
            Known(field.Get("provider"), providers, "providers"),
            field.Get("place").Text(),
            field.Get("minutes").Number(1, MostMinutes),
            smallest,
            field.Get("largest").Number(smallest, DayTime.MinutesOfADay));
    }

    private static string Known(CaseField field, List<Availability> people, string list) =>
        people.Exists(p => p.Id == field.Text()) ? field.Text() : throw field.Wrong($"is not among {list}");

    private static List<Availability> ReadPeople(CaseField field)
    {
        var people = field.List(person => new Availability(
            person.Only("id", "hours", "dailyLimit").Get("id").Text(),
            person.Get("hours").List(hours => ReadTime(hours.Only("date", "start", "end"))),
            person.GetOrNull("dailyLimit")?.Number(0, DayTime.MinutesOfADay)));
        return people.Select(p => p.Id).Distinct().Count() == people.Count ? people : throw field.Wrong("names a person twice");
    }

    private static BusyVisit ReadBusy(CaseField field) => new(
        field.Only("line", "provider", "learner", "place", "date", "start", "end").Find("line")?.Text(),
        field.Get("provider").Text(),
        field.GetOrNull("learner")?.Text(),
        field.Get("place").Text(),
        ReadTime(field));

    private static (string From, string To, int Minutes) ReadLeg(CaseField field) => (
        field.Only("from", "to", "minutes").Get("from").Text(),
        field.Get("to").Text(),
        field.Get("minutes").Number(0, DayTime.MinutesOfADay));

    private static DayTime ReadTime(CaseField field)
    {
        var time = new DayTime(field.Get("date").Date(), ReadClock(field.Get("start")), ReadClock(field.Get("end")));
        return time.Start < time.End ? time : throw field.Get("end").Wrong("must be after start");
    }

    /// <summary>Minutes after midnight; 24:00 is the end of the day.</summary>
    private static int ReadClock(CaseField field)
    {
        const string Wrong = "must be a time such as 09:30";
        var text = field.Text(Wrong);
        if (text == "24:00")
            return DayTime.MinutesOfADay;
        var read = LocalTimePattern.CreateWithInvariantCulture("HH:mm").Parse(text);
        return read.Success ? (read.Value.Hour * 60) + read.Value.Minute : throw field.Wrong(Wrong);
    }

    private static void WriteList<T>(Utf8JsonWriter json, string name, IEnumerable<T> items, Action<T> write)
    {
        json.WriteStartArray(name);
        foreach (var item in items)
        {
            json.WriteStartObject();
            write(item);
            json.WriteEndObject();
        }
        json.WriteEndArray();
    }

    private void WriteNeed(Utf8JsonWriter json, int need)
    {
        json.WriteString("line", Problem.Needs[need].Line);
        json.WriteString("window", Date(Problem.Needs[need].Window));
    }

    private static string Date(int day) => LocalDatePattern.Iso.Format(Day.Date(day));

    private static string Clock(int minute) => string.Create(CultureInfo.InvariantCulture, $"{minute / 60:00}:{minute % 60:00}");

    private static string Code(Enum code) => JsonNamingPolicy.CamelCase.ConvertName(code.ToString());
}
