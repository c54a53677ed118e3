using System.Text.Json;
using TeamCircle.Core;

namespace TeamCircle.Data.Devices;

/// <summary>One act as a device sends it: an envelope, and in it what was typed or recorded.</summary>
/// <param name="Id">Made on the device; a repeat carries the same.</param>
/// <param name="Format">The version of the body's form.</param>
/// <param name="Kind">One of <see cref="OperationKind"/>, in camelCase.</param>
/// <param name="Made">When it was done, by the device's clock.</param>
/// <param name="SkewMs">How far that clock was ahead of the portal's at the last contact; null before the first.</param>
public sealed record SentOperation(Guid Id, int Format, string Kind, Instant Made, JsonElement Body, int? SkewMs = null)
{
    /// <summary>The oldest and the newest form that is accepted: the newest and the one before it.</summary>
    /// <remarks>Form 2 came with a second observer's practice, what filled the hour of a visit, and the conditions of a probe apart; what form 1 says, it says in the same words.</remarks>
    public const int LeastFormat = 1, MostFormat = 2;

    /// <summary>Of one body, in characters.</summary>
    public const int LargestBody = 256 * 1024;

    /// <exception cref="JsonException">It is no envelope, or its form is not known; the message says what is wrong.</exception>
    public static SentOperation Read(JsonElement json)
    {
        var sent = json.Deserialize<SentOperation>(StrictJson.Options) ?? throw new JsonException("There is nothing in it.");
        if (sent.Id == Guid.Empty)
            throw new JsonException("It has no id.");
        if (sent.Format is < LeastFormat or > MostFormat)
            throw new JsonException($"It is written in form {sent.Format}, and this portal reads forms {LeastFormat} to {MostFormat}. Keep it, and load the newest pages.");
        if (sent.Body.ValueKind != JsonValueKind.Object || sent.Body.GetRawText().Length > LargestBody)
            throw new JsonException("Its body is no object, or larger than anybody types.");
        return sent;
    }
}

/// <summary>The three ends of what a device sent.</summary>
public enum OperationEnd
{
    Stored,

    /// <summary>Kept whole in the portal, waiting for a person: the device deletes it, as it does what was stored.</summary>
    SetAside,

    /// <summary>Malformed, or other content under an id that was used: nothing is kept in the portal, and the device keeps it.</summary>
    Refused,
}

/// <param name="Id">Null where none could be read.</param>
/// <param name="Why">In words; null where it was stored.</param>
/// <param name="Answer">What was saved; null unless it was stored.</param>
public sealed record OperationAnswer(Guid? Id, OperationEnd End, string? Why = null, object? Answer = null);
