using Microsoft.EntityFrameworkCore;
using TeamCircle.Core;
using TeamCircle.Core.People;
using TeamCircle.Core.Retention;

namespace TeamCircle.Data.Retention;

/// <summary>Which destruction a form is about, as it stood when the form was opened.</summary>
public record DestructionInput
{
    public int Learner { get; init; }
    public int Destruction { get; init; }
    public int Version { get; init; }
}

/// <summary>Finds the destruction that a turn is about.</summary>
internal static class DestructionTurn
{
    /// <returns>The row, begun on the version that the form showed; or why there is none.</returns>
    public static async Task<Outcome<DestructionRow>> FindAsync(PortalDb db, Caller caller, DestructionInput input, CancellationToken stop)
    {
        var row = RetentionRules.MayKeep(caller, input.Learner)
            ? await db.Destructions.SingleOrDefaultAsync(d => d.AgencyId == caller.AgencyId && d.LearnerId == input.Learner && d.Id == input.Destruction, stop) : null;
        if (row is null)
            return Outcome<DestructionRow>.Refused(Problem.NotFound);
        if (StageOf(row, caller.Today) is DestructionStage.Destroyed or DestructionStage.Stopped)
            return Outcome<DestructionRow>.Refused("", "It is over already.");
        db.BeganOn(row, input.Version);
        return Outcome<DestructionRow>.Of(row);
    }

    public static DestructionStage StageOf(DestructionRow row, LocalDate today) =>
        RetentionRules.StageOf(row.DestroyedAt is not null, row.StoppedAt is not null, row.AgreedAt is not null, row.WaitUntil, today);

    /// <summary>Why the record can't go now; null where nothing keeps it.</summary>
    public static async Task<Problem?> KeptAsync(PortalDb db, DestructionRow row, CancellationToken stop) =>
        await ProposeDestructions.KeptByAsync(db, row.LearnerId, row.Kind, row.UpTo, stop) is { } what ? new("", WordsOf(what)) : null;

    public static string WordsOf(string what) => what switch
    {
        "hold" => "Some of these records are under a hold. It has to end first.",
        "request" => "A request about this record, or a hearing, is open: nothing is destroyed before it is answered (34 CFR 99.10(e)).",
        _ => "It is quiet around this learner: nothing is destroyed.",
    };
}
