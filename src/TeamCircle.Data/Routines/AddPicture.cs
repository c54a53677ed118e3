using System.ComponentModel.DataAnnotations;
using Microsoft.EntityFrameworkCore;
using TeamCircle.Core;
using TeamCircle.Core.People;
using TeamCircle.Data.Devices;

namespace TeamCircle.Data.Routines;

/// <summary>Puts a picture on a routine's card, made anew so that no place, time or camera stays in it.</summary>
public sealed class AddPicture(Portal portal)
{
    /// <summary>How many a card holds.</summary>
    public const int Most = 6;

    public const string TooLarge = "Choose a picture of at most 8 MB.";

    public sealed record Input
    {
        public int Routine { get; init; }

        [EnumDataType(typeof(PictureKind))]
        public PictureKind Kind { get; init; }

        /// <summary>What it shows.</summary>
        public string? Words { get; init; }

        /// <summary>The file as it was sent; null: none was.</summary>
        public byte[]? Sent { get; init; }
    }

    public sealed record Saved(int Picture);

    public Task<Outcome<Saved>> RunAsync(Caller caller, Guid operation, Input input, CancellationToken stop = default) =>
        portal.WriteRoutineAsync(caller, input.Routine, Operation.Of(operation, nameof(AddPicture), input), (db, row) => WorkAsync(db, row, input, stop), stop);

    private static async Task<Outcome<Saved>> WorkAsync(PortalDb db, RoutineRow routine, Input input, CancellationToken stop)
    {
        var picture = input.Sent is { Length: > 0 } sent ? CleanPicture.Of(sent) : null;
        var standing = await db.RoutinePictures.CountAsync(p => p.AgencyId == routine.AgencyId && p.RoutineId == routine.Id, stop);
        Problem[] problems = [.. Check(input, picture), .. standing >= Most ? [new Problem("", $"A card holds {Most} pictures. Remove one first.")] : Array.Empty<Problem>()];
        if (problems.Length > 0)
            return Outcome<Saved>.Refused(problems);
        var row = new RoutinePictureRow
        {
            AgencyId = routine.AgencyId,
            LearnerId = routine.LearnerId,
            RoutineId = routine.Id,
            Kind = input.Kind,
            Jpeg = picture!.Jpeg,
            Width = picture.Width,
            Height = picture.Height,
            Words = input.Words!.Trim(),
        };
        db.Add(row);
        await db.SaveChangesAsync(stop);
        return Outcome<Saved>.Of(new(row.Id));
    }

    private static IEnumerable<Problem> Check(Input input, CleanPicture? picture)
    {
        if (input.Sent is not { Length: > 0 })
            yield return new(nameof(input.Sent), "Choose a picture.");
        else if (input.Sent.Length > CleanPicture.MostBytes)
            yield return new(nameof(input.Sent), TooLarge);
        else if (picture is null)
            yield return new(nameof(input.Sent), "This is no picture that can be read here. Choose a JPEG, PNG or WebP.");
        if (string.IsNullOrWhiteSpace(input.Words) || input.Words.Trim().Length > 200)
            yield return new(nameof(input.Words), "Say in under 200 letters what it shows, for colleagues who do not see it.");
    }
}
