using TeamCircle.Core.Learners;
using TeamCircle.Core.Routines;

namespace TeamCircle.Core.Tests.Routines;

/// <summary>A card with everything on it.</summary>
internal static class ACard
{
    public static RoutineContent Herbs { get; } = new()
    {
        Cue = "the small watering can",
        Say = "Water the herbs.",
        Position = "upright in the corner chair",
        Support = "a hand under the left elbow",
        Light = "curtain drawn, one lamp behind her",
        Background = "black cloth",
        Side = "right",
        Height = "eye level",
        Distance = "40 cm",
        Device = new("soft switch", "elbow", "left", "arm on the tray", "12 cm from the edge"),
        Materials = "pots, pump, jug",
        Place = Place.Home,
        Finish = "The can goes back into its bag.",
        Cautions = [new("c1", CautionKind.PowerAndWater, "The pump runs on its battery only.")],
        Appliance = new("small pump", ApplianceKind.Timed, 5),
        Texture = "none",
        Allergies = "none known",
        WhoFeeds = "nobody",
        FoodOrPowerNear = "water on the tray; towel at hand",
        Flashing = true,
        SeizuresAsked = "Her mother, 14 September: none.",
        Procedure = PromptProcedure.LeastToMost,
        WaitSeconds = 12,
        Prompts =
        [
            new("p1", "Say it once more"),
            new("p2", "Guide the elbow", new(HandPlace.Under, "elbow", BodySide.Left, "stops when she pulls away"), 20),
        ],
        Steps =
        [
            new("s1", StepKind.Shown, "Show the can", []),
            new("s2", StepKind.Response, "She presses", [3, 5], 15),
            new("s3", StepKind.Waiting, "Watch the water", []),
        ],
    };
}
