using Microsoft.AspNetCore.Mvc.Rendering;
using NodaTime;
using TeamCircle.Core.Learners;
using TeamCircle.Core.Routines;
using TeamCircle.Data.Routines;

namespace TeamCircle.Web.Ui;

/// <summary>What is said of a hold: on what it lies, on whose word, since when; and by what a form names on what it is set.</summary>
public static class HoldWords
{
    public static IReadOnlyList<SelectListItem> ToldAs { get; } = [.. Enum.GetValues<HoldWord>().Select(w => new SelectListItem(Say.Begin(Of(w)), w.ToString()))];

    /// <summary>Watering the herbs; Watering the herbs, the step "She presses"; How we teach: hands; visits of occupational therapy.</summary>
    public static string On(HoldShown hold) => hold switch
    {
        { Place.Part: { } part } => $"How we teach: {Say.Within(Say.Part(part))}",
        { Service: { } service } => $"visits of {Words(service)}",
        { Step: { } step } => $"{hold.Routine}, the step \"{step}\"",
        _ => hold.Routine ?? "",
    };

    /// <summary>On the word of Ines Belmares (parent), 1 October 2026, 4:30 pm; in the setter's own words where it is their own.</summary>
    public static string Told(HoldShown hold) => hold.ToldAs == HoldWord.Own
        ? $"on the own word of {hold.SetBy}"
        : $"on the word of {hold.ToldBy} ({Of(hold.ToldAs)}){(hold.ToldOn is { } day ? $", {Say.Date(day)}" : "")}{(hold.ToldTime is { } time ? $", {Say.Time(time)}" : "")}";

    /// <summary>since 2 October 2026, 9:00 am, set by Odalys Ferreira</summary>
    public static string Since(HoldShown hold) => $"since {At(hold.SetAt)}{(hold.ToldAs == HoldWord.Own ? "" : $", set by {hold.SetBy}")}";

    public static string At(LocalDateTime at) => $"{Say.Date(at.Date)}, {Say.Time(at.TimeOfDay)}";

    /// <summary>What may still be done.</summary>
    public static string Stops(HoldShown hold) => hold.Place switch
    {
        { Service: not null } => "Practise nothing at these visits. Minutes can still be logged.",
        { Step: null } => "Do not practise what it lies on. Minutes can still be logged.",
        _ => "Leave this step out. The rest can be practised.",
    };

    /// <summary>Who ends it: the occupational therapist, or the case manager with a licensed person's word.</summary>
    public static string EndedBy(Discipline? owner) => owner is { } discipline
        ? $"Ended by the {Say.Profession(discipline)}, or by the case manager naming the licensed person who agreed."
        : "Ended by the case manager, naming the licensed person who agreed.";

    /// <summary>Bram Nakamura (Tablet, last contact 1 October 2026, 4:00 pm) and Priya Lindqvist (Phone, no contact yet)</summary>
    public static string Unheard(IReadOnlyList<TeamDevice> devices) =>
        Say.List([.. devices.Select(d => $"{d.Person} ({d.Name}, {(d.LastContact is { } at ? $"last contact {At(at)}" : "no contact yet")})")]);

    /// <summary>What a hold can lie on: routines with their steps, then the parts of "How we teach", then services.</summary>
    public static IReadOnlyList<SelectListItem> Places(IReadOnlyList<HoldableRoutine> routines, IReadOnlyList<HoldableService> held)
    {
        var parts = new SelectListGroup { Name = "How we teach" };
        var services = new SelectListGroup { Name = "Services" };
        return
        [
            new("Choose", ""),
            .. routines.SelectMany(OfRoutine),
            .. Enum.GetValues<TeachPart>().Select(p => new SelectListItem(Say.Part(p), Key(null, null, p)) { Group = parts }),
            .. held.Select(s => new SelectListItem($"All visits of {Words(s.Discipline)} ({s.Code})", $"{ServiceKey}{s.Id}") { Group = services }),
        ];
    }

    private const string ServiceKey = "service";

    /// <summary>r12; r12.s3; Hands; service12. Read back by <see cref="PlaceOf"/>.</summary>
    public static string Key(int? routine, string? step, TeachPart? part) => part is { } p ? p.ToString() : step is null ? $"r{routine}" : $"r{routine}.{step}";

    /// <summary>Null where it names nothing.</summary>
    public static HoldPlace? PlaceOf(string? key)
    {
        if (key?.StartsWith(ServiceKey, StringComparison.Ordinal) == true)
            return int.TryParse(key[ServiceKey.Length..], out var service) ? new(null, null, null, service) : null;
        if (key is not ['r', .. var rest])
            return Enum.TryParse<TeachPart>(key, out var part) && Enum.IsDefined(part) ? new(null, null, part) : null;
        var parts = rest.Split('.', 2);
        return int.TryParse(parts[0], out var routine) ? new(routine, parts.Length > 1 ? parts[1] : null, null) : null;
    }

    private static IEnumerable<SelectListItem> OfRoutine(HoldableRoutine routine)
    {
        var group = new SelectListGroup { Name = routine.Name };
        yield return new($"{routine.Name}, the whole routine", Key(routine.Id, null, null)) { Group = group };
        foreach (var step in routine.Steps)
            yield return new($"Step: {step.Words}", Key(routine.Id, step.Key, null)) { Group = group };
    }

    private static string Words(Discipline discipline) => Core.Words.Of(discipline);

    private static string Of(HoldWord word) => word == HoldWord.Own ? "my own" : Core.Words.Of(word);
}
