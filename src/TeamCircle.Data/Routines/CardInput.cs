using System.ComponentModel.DataAnnotations;
using System.Globalization;
using TeamCircle.Core;
using TeamCircle.Core.Learners;
using TeamCircle.Core.Routines;

namespace TeamCircle.Data.Routines;

/// <summary>A card as it is typed: every text may be empty, and what is removed stays in its place until the form is saved.</summary>
public sealed class CardInput
{
    public string? Cue { get; set; }
    public string? Say { get; set; }
    public string? Position { get; set; }
    public string? Support { get; set; }
    public string? Light { get; set; }
    public string? Background { get; set; }
    public string? Side { get; set; }
    public string? Height { get; set; }
    public string? Distance { get; set; }
    public DeviceInput Device { get; set; } = new();
    public string? Materials { get; set; }

    [EnumDataType(typeof(Place))]
    public Place? Place { get; set; }
    public string? Finish { get; set; }
    public List<CautionInput> Cautions { get; set; } = [];
    public ApplianceInput Appliance { get; set; } = new();
    public string? Texture { get; set; }
    public string? Allergies { get; set; }
    public string? WhoFeeds { get; set; }
    public string? FoodOrPowerNear { get; set; }
    public bool Flashing { get; set; }
    public string? SeizuresAsked { get; set; }

    [EnumDataType(typeof(PromptProcedure))]
    public PromptProcedure? Procedure { get; set; }
    public int? WaitSeconds { get; set; }
    public List<PromptInput> Prompts { get; set; } = [];
    public List<StepInput> Steps { get; set; } = [];

    public sealed class DeviceInput
    {
        public string? Name { get; set; }
        public string? Site { get; set; }
        public string? Side { get; set; }
        public string? Mount { get; set; }
        public string? Measures { get; set; }
    }

    public sealed class ApplianceInput
    {
        public string? Name { get; set; }

        [EnumDataType(typeof(ApplianceKind))]
        public ApplianceKind Kind { get; set; } = ApplianceKind.Timed;
        public int? AutoOffSeconds { get; set; }
    }

    /// <summary>What can be added, moved and removed.</summary>
    public abstract class Item
    {
        /// <summary>Empty where it is new.</summary>
        public string? Key { get; set; }

        /// <summary>Removed, and can be put back until the form is saved.</summary>
        public bool Gone { get; set; }

        /// <summary>Its own words, by which people know it.</summary>
        public abstract string? Title { get; }
    }

    public sealed class CautionInput : Item
    {
        [EnumDataType(typeof(CautionKind))]
        public CautionKind Kind { get; set; } = CautionKind.Other;
        public string? Text { get; set; }
        public override string? Title => Text;
    }

    public sealed class PromptInput : Item
    {
        public string? Words { get; set; }

        /// <summary>Null where the adult does not touch the learner; the three that follow count only with it.</summary>
        [EnumDataType(typeof(HandPlace))]
        public HandPlace? Hand { get; set; }
        public string? Part { get; set; }

        [EnumDataType(typeof(BodySide))]
        public BodySide Side { get; set; }
        public string? Stops { get; set; }
        public int? WaitSeconds { get; set; }
        public override string? Title => Words;
    }

    public sealed class StepInput : Item
    {
        [EnumDataType(typeof(StepKind))]
        public StepKind Kind { get; set; }
        public string? Words { get; set; }
        public int[] Goals { get; set; } = [];
        public int? WaitSeconds { get; set; }
        public override string? Title => Words;
    }

    public static CardInput Of(RoutineContent card) => new()
    {
        Cue = card.Cue,
        Say = card.Say,
        Position = card.Position,
        Support = card.Support,
        Light = card.Light,
        Background = card.Background,
        Side = card.Side,
        Height = card.Height,
        Distance = card.Distance,
        Device = card.Device is { } device ? new() { Name = device.Name, Site = device.Site, Side = device.Side, Mount = device.Mount, Measures = device.Measures } : new(),
        Materials = card.Materials,
        Place = card.Place,
        Finish = card.Finish,
        Cautions = [.. card.Cautions.Select(c => new CautionInput { Key = c.Key, Kind = c.Kind, Text = c.Text })],
        Appliance = card.Appliance is { } appliance ? new() { Name = appliance.Name, Kind = appliance.Kind, AutoOffSeconds = appliance.AutoOffSeconds } : new(),
        Texture = card.Texture,
        Allergies = card.Allergies,
        WhoFeeds = card.WhoFeeds,
        FoodOrPowerNear = card.FoodOrPowerNear,
        Flashing = card.Flashing,
        SeizuresAsked = card.SeizuresAsked,
        Procedure = card.Procedure,
        WaitSeconds = card.WaitSeconds,
        Prompts = [.. card.Prompts.Select(Typed)],
        Steps = [.. card.Steps.Select(s => new StepInput { Key = s.Key, Kind = s.Kind, Words = s.Words, Goals = [.. s.Goals], WaitSeconds = s.WaitSeconds })],
    };

    private static PromptInput Typed(Prompt prompt) => new()
    {
        Key = prompt.Key,
        Words = prompt.Words,
        Hand = prompt.Physical?.Hand,
        Part = prompt.Physical?.Part,
        Side = prompt.Physical?.Side ?? BodySide.Left,
        Stops = prompt.Physical?.Stops,
        WaitSeconds = prompt.WaitSeconds,
    };

    /// <summary>What is left of it once spaces, empty texts and what was removed are gone.</summary>
    public RoutineContent ToContent() => new()
    {
        Cue = Text(Cue),
        Say = Text(Say),
        Position = Text(Position),
        Support = Text(Support),
        Light = Text(Light),
        Background = Text(Background),
        Side = Text(Side),
        Height = Text(Height),
        Distance = Text(Distance),
        Device = DeviceOf(Device),
        Materials = Text(Materials),
        Place = Place,
        Finish = Text(Finish),
        Cautions = [.. Cautions.Where(c => !c.Gone).Select(c => new Caution(c.Key ?? "", c.Kind, Text(c.Text) ?? ""))],
        Appliance = Text(Appliance.Name) is { } name ? new(name, Appliance.Kind, Appliance.Kind == ApplianceKind.Timed ? Appliance.AutoOffSeconds : null) : null,
        Texture = Text(Texture),
        Allergies = Text(Allergies),
        WhoFeeds = Text(WhoFeeds),
        FoodOrPowerNear = Text(FoodOrPowerNear),
        Flashing = Flashing,
        SeizuresAsked = Text(SeizuresAsked),
        Procedure = Procedure,
        WaitSeconds = WaitSeconds,
        Prompts = [.. Prompts.Where(p => !p.Gone).Select(p => new Prompt(p.Key ?? "", Text(p.Words) ?? "", PhysicalOf(p), p.WaitSeconds))],
        Steps = [.. Steps.Where(s => !s.Gone).Select(s => new RoutineStep(s.Key ?? "", s.Kind, Text(s.Words) ?? "", [.. s.Goals.Distinct().Order()], s.WaitSeconds))],
    };

    /// <summary>A problem's field as this form numbers it: what was removed still has its number here.</summary>
    internal Problem InForm(Problem problem)
    {
        IReadOnlyList<Item> items = problem.Field.Split('[')[0] switch
        {
            nameof(Cautions) => Cautions,
            nameof(Prompts) => Prompts,
            nameof(Steps) => Steps,
            _ => [],
        };
        var (open, close) = (problem.Field.IndexOf('[', StringComparison.Ordinal), problem.Field.IndexOf(']', StringComparison.Ordinal));
        if (open < 0)
            return problem;
        var number = int.Parse(problem.Field.AsSpan(open + 1, close - open - 1), CultureInfo.InvariantCulture);
        var place = items.Select((item, i) => (item, i)).Where(p => !p.item.Gone).ElementAt(number).i;
        var field = string.Create(CultureInfo.InvariantCulture, $"{problem.Field[..open]}[{place}]{problem.Field[(close + 1)..]}");
        return problem with { Field = field.Replace(".Physical.", ".", StringComparison.Ordinal) };
    }

    private static CardDevice? DeviceOf(DeviceInput typed)
    {
        var device = new CardDevice(Text(typed.Name) ?? "", Text(typed.Site), Text(typed.Side), Text(typed.Mount), Text(typed.Measures));
        return device == new CardDevice("") ? null : device;
    }

    private static PhysicalHelp? PhysicalOf(PromptInput typed) =>
        typed.Hand is { } hand ? new(hand, Text(typed.Part) ?? "", typed.Side, Text(typed.Stops) ?? "") : null;

    private static string? Text(string? typed) => string.IsNullOrWhiteSpace(typed) ? null : typed.Trim();
}
