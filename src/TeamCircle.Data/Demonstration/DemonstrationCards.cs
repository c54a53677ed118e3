using TeamCircle.Core.Learners;
using TeamCircle.Core.Routines;

namespace TeamCircle.Data.Demonstration;

/// <summary>The cards of Wren's four routines, as her team wrote them.</summary>
/// <param name="Looks">Ids of her goals, by what they are about; so are the others.</param>
internal sealed record DemonstrationCards(int Looks, int Presses, int Head, int More)
{
    private const string Chair = "In her chair, hips all the way back, tray on the second notch, feet on the block.";
    private const string Lamp = "Curtain drawn, one lamp behind her left shoulder.";
    private const string Cloth = "The black cloth over the tray, nothing else on it.";
    private const string LetsGo = "stops when she pulls away";
    private static readonly Caution ChairTime = new("", CautionKind.Positioning, "Out of the chair after 40 minutes at the latest.");
    private static readonly CardDevice ElbowSwitch =
        new("Round switch", "elbow", "right", "Swing arm on the frame of the chair.", "Two fingers from her elbow at rest; the arm's joint on the third mark.");

    private static RoutineContent AtTheTray => new()
    {
        Position = Chair,
        Light = Lamp,
        Background = Cloth,
        Side = "From her left.",
        Height = "A little above eye level.",
        Distance = "A forearm's length.",
        Place = Place.Home,
        Procedure = PromptProcedure.LeastToMost,
    };

    public RoutineContent Herbs => AtTheTray with
    {
        Cue = "the small can, filled",
        Say = "Water the herbs.",
        Support = "The weight of her right arm rests on yours until she begins to move.",
        Device = ElbowSwitch,
        Appliance = new("Small pump on its battery", ApplianceKind.Timed, 5),
        Materials = "Can, pump with its battery box, jug of water, the basil pot in its tray, a towel.",
        FoodOrPowerNear = "Water on the tray: the battery box hangs on the frame, never on the tray. Nothing is plugged in.",
        Cautions = [ChairTime, new("", CautionKind.Skin, "Look at her right elbow afterwards: no mark may stay for longer than ten minutes.")],
        WaitSeconds = 10,
        Prompts =
        [
            new("", "Touch the can to her left hand once."),
            new("", "Say: water the herbs."),
            new("", "Bring her elbow to the switch.", new(HandPlace.Under, "elbow", BodySide.Right, LetsGo)),
        ],
        Steps =
        [
            new("", StepKind.Shown, "Show her the can and let her feel it.", []),
            new("", StepKind.Response, "She turns her eyes to the basil.", [Looks]),
            new("", StepKind.Response, "She presses; the pump runs.", [Presses]),
            new("", StepKind.Waiting, "Watch and listen to the water together.", []),
            new("", StepKind.Response, "She presses again or says that it is enough.", [Presses]),
        ],
        Finish = "The can goes back into its bag; say: the herbs have had their water.",
    };

    /// <summary>The herbs once more, with the wait that the team agreed on later.</summary>
    public RoutineContent HerbsAfterTheFirstWeeks => Herbs with { WaitSeconds = 12, Light = "Curtain drawn, one lamp behind her left shoulder, turned to the wall." };

    public RoutineContent Towel => AtTheTray with
    {
        Cue = "the towel from the heater",
        Say = "Hello Wren, here is your towel.",
        Position = "On her left side on the mat, the wedge behind her back, a cushion between her knees.",
        Support = "A hand behind her head.",
        Background = "Nothing behind you but the wall.",
        Cautions =
        [
            new("", CautionKind.PhysicalAssistance, "Two adults lift her onto the mat and back, as Priya showed."),
            new("", CautionKind.Skin, "Hold the towel to your own cheek first. Warm, never hot."),
        ],
        Materials = "Two small towels, the heater, the mat, the wedge, a cushion.",
        WaitSeconds = 15,
        Prompts = [new("", "Stroke her cheek with the towel once."), new("", "Say her name once."), new("", "Turn her face a little towards the towel.", new(HandPlace.Under, "cheek", BodySide.Left, LetsGo))],
        Steps =
        [
            new("", StepKind.Shown, "Lay the towel against her left hand.", []),
            new("", StepKind.Response, "She lifts her head towards it.", [Head]),
            new("", StepKind.Waiting, "Warm her hands and her cheek with it.", []),
            new("", StepKind.Response, "She asks for more in her own way.", [More]),
        ],
        Finish = "The towel goes into the basket; say: that was the towel.",
    };

    public RoutineContent Fan => AtTheTray with
    {
        Cue = "a strip of ribbon",
        Say = "Shall we make wind?",
        Device = ElbowSwitch,
        Appliance = new("Small fan with a guard", ApplianceKind.Timed, 8),
        Materials = "Fan with its guard, three red ribbons, the black cloth.",
        FoodOrPowerNear = "The fan runs on its battery.",
        Flashing = true,
        SeizuresAsked = "Ines Belmares and the health plan, August: no seizure so far; call if her eyes flicker for longer than usual.",
        Cautions =
        [
            new("", CautionKind.FlashingLight, "The fan stands beside the lamp, never in front of it or of the window."),
            new("", CautionKind.MovingParts, "The guard is on. Ribbons no longer than a hand, knotted outside the guard."),
            ChairTime,
        ],
        WaitSeconds = 12,
        Prompts = [new("", "Move one ribbon on her left side."), new("", "Say: make wind."), new("", "Bring her elbow to the switch.", new(HandPlace.Under, "elbow", BodySide.Right, LetsGo))],
        Steps =
        [
            new("", StepKind.Shown, "Draw the ribbon over her hand.", []),
            new("", StepKind.Response, "She turns her eyes to the ribbons.", [Looks]),
            new("", StepKind.Response, "She presses; the ribbons fly.", [Presses]),
            new("", StepKind.Response, "The fan stops: she asks for more in her own way.", [More], 20),
        ],
        Finish = "Roll the ribbons up together; say: the wind is asleep.",
    };

    public RoutineContent Shake => AtTheTray with
    {
        Cue = "the cup with two handles",
        Say = "Let us make the shake.",
        Device = new("Flat switch", "palm", "right", "On the tray under her right hand, on the grip mat.", "Its front edge on the second line of the mat."),
        Appliance = new("Blender through the switch box", ApplianceKind.Timed, 6),
        Materials = "Banana, milk, thickener, blender, switch box, the cup, a spoon.",
        Texture = "As thick as honey; nothing in lumps.",
        Allergies = "Nuts. Read the label of the milk.",
        WhoFeeds = "Ines or Bram, nobody else.",
        FoodOrPowerNear = "The blender and its plug stand on the side table, an arm's length from water and from her. One adult stays beside it; the plug is out before the lid comes off.",
        Cautions =
        [
            new("", CautionKind.Swallowing, "Upright for half an hour afterwards. If she coughs or her voice is wet: stop, and do as the health plan says."),
            new("", CautionKind.Allergies, "No nuts in the kitchen on that day."),
            new("", CautionKind.PowerAndWater, "Mains power: dry hands, dry table."),
            ChairTime,
        ],
        WaitSeconds = 12,
        Prompts = [new("", "Touch the cup to her right hand once."), new("", "Say: press."), new("", "Lift her hand onto the switch.", new(HandPlace.Under, "hand", BodySide.Right, LetsGo), 15)],
        Steps =
        [
            new("", StepKind.Shown, "Let her smell the banana and feel the cup.", []),
            new("", StepKind.Response, "She presses; the blender runs.", [Presses]),
            new("", StepKind.Response, "She holds her head up and looks at the cup.", [Head, Looks]),
            new("", StepKind.Waiting, "She drinks, as Ines and Bram do it.", []),
        ],
        Finish = "Wash the cup together; say: all gone.",
    };
}
