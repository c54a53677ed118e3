using Microsoft.EntityFrameworkCore;
using TeamCircle.Core.Learners;
using TeamCircle.Data.Learners;
using static TeamCircle.Data.Demonstration.DemonstrationFiles;

namespace TeamCircle.Data.Demonstration;

/// <summary>How the demonstration's team teaches Wren, and the steps towards one of her goals: what no file brings.</summary>
internal sealed class DemonstrationTeaching(PortalDb db, int agency, LocalDate today)
{
    private static readonly (TeachPart Part, Discipline? Owner, string Writer, string Text)[] Parts =
    [
        (TeachPart.ShowingThings, Discipline.Vision, Odalys, "From her left, a little above eye level, at a forearm's length. One thing at a time on the black cloth. The lamp stands behind her. Wait in silence; she often looks away first and then comes back."),
        (TeachPart.Position, Discipline.PhysicalTherapy, Priya, "In her chair, hips all the way back, tray on the second notch, feet on the block. Out of the chair after 40 minutes at the latest."),
        (TeachPart.Hands, Discipline.OccupationalTherapy, Bram, "Offer at the right elbow. Hand under hand only, and only after the wait. The weight of her arm may rest on yours: that is access, not a prompt."),
        (TeachPart.Switch, Discipline.AssistiveTechnology, Tomasz, "Round switch at the right elbow, on the swing arm, two fingers away. Check that it clicks before you begin."),
        (TeachPart.SignalYes, null, Marisol, "Turns her face to you and opens her mouth."),
        (TeachPart.SignalMore, null, Marisol, "Rocks once, and waits. Ask: again?"),
        (TeachPart.SignalNo, null, Marisol, "Turns away and stiffens her right arm. Stop and say: you said no."),
        (TeachPart.SignalStop, null, Marisol, "Closes her eyes tightly twice."),
        (TeachPart.SignalTired, null, Marisol, "Yawns, rubs her cheek on her shoulder, looks late."),
        (TeachPart.Cautions, null, Marisol, "No flicker: the fan stands beside the lamp, never in front of it. Thickened drinks only."),
        (TeachPart.HealthPlan, null, Marisol, "Hangs by the door, with the nurse's number on top. A seizure, choking or a blue mouth: stop everything, do what the sheet says, then call. Nothing by mouth afterwards."),
    ];

    private static readonly string[] Steps =
    [
        "Presses within 30 seconds after the silent wait, in one routine.",
        "Presses within 20 seconds, in two routines.",
        "Presses within 20 seconds with two different adults.",
    ];

    public async Task AddAsync(CancellationToken stop)
    {
        var wren = await db.Learners.Where(l => l.AgencyId == agency && l.Code == "TF07").Select(l => l.Id).SingleAsync(stop);
        var goal = await db.Goals.Where(g => g.AgencyId == agency && g.Code == "TF07-PRESSES").Select(g => g.Id).SingleAsync(stop);
        var people = await db.People.Where(p => p.AgencyId == agency).ToDictionaryAsync(p => p.Email, p => p.Id, stop);
        foreach (var (part, owner, writer, text) in Parts)
        {
            db.Add(new TeachPartRow
            {
                AgencyId = agency,
                LearnerId = wren,
                Part = part,
                Owner = owner,
                Text = text,
                WrittenOn = today.PlusDays(-30),
                WrittenBy = people[writer],
            });
        }
        for (var i = 0; i < Steps.Length; i++)
            db.Add(new ObjectiveRow { AgencyId = agency, LearnerId = wren, GoalId = goal, Position = i + 1, Statement = Steps[i] });
        await db.SaveChangesAsync(stop);
    }
}
