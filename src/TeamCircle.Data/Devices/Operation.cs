using System.Security.Cryptography;
using System.Text.Json;
using Microsoft.EntityFrameworkCore;
using TeamCircle.Core;

namespace TeamCircle.Data.Devices;

/// <summary>One act of one person, named by an id made in the browser (or on the device, or by a command).</summary>
/// <param name="Name">What is done, for the record: the operation class's name.</param>
/// <param name="RequestHash">SHA-256 over what was asked for.</param>
public sealed record Operation(Guid Id, string Name, byte[] RequestHash)
{
    /// <summary>The hash is over the JSON of <paramref name="input"/>, so it must hold all that was typed. What is null is left out of it: a field
    /// that comes later and is not typed changes no hash, and a repeat of what was sent before stays one.</summary>
    public static Operation Of<TInput>(Guid id, string name, TInput input) =>
        new(id, name, SHA256.HashData(JsonSerializer.SerializeToUtf8Bytes(input, Typed)));

    /// <summary>An act without a form behind it.</summary>
    public static Operation Own(string name) => new(Guid.CreateVersion7(), name, SHA256.HashData([]));

    /// <summary>Takes the id. False: it was taken before; a run that is still going is waited for.</summary>
    internal async Task<bool> BeginAsync(PortalDb db, Scope scope, CancellationToken stop, OperationState state = OperationState.Stored) =>
        await db.Database.ExecuteSqlRawAsync(
            """
            insert into portal.operations (agency_id, person_id, id, name, request_hash, state)
            values ({0}, {1}, {2}, {3}, {4}, {5}) on conflict do nothing
            """,
            [scope.AgencyId, scope.PersonId, Id, Name, RequestHash, state.ToString()], stop) == 1;

    internal async Task<Outcome<T>> FirstAnswerAsync<T>(PortalDb db, Scope scope, CancellationToken stop) where T : class
    {
        var first = await db.Operations.AsNoTracking()
            .SingleAsync(o => o.AgencyId == scope.AgencyId && o.PersonId == scope.PersonId && o.Id == Id, stop);
        if (!IsRepeatOf(first))
            return Outcome<T>.Refused(Refusals.SavedOtherwise);
        if (first.State != OperationState.Stored)
            return Outcome<T>.Refused(Refusals.SetAsideBefore);
        return Outcome<T>.Of(JsonSerializer.Deserialize<T>(first.Result!, Json)!);
    }

    internal bool IsRepeatOf(OperationRow first) => first.Name == Name && first.RequestHash.AsSpan().SequenceEqual(RequestHash);

    internal Task KeepAsync<T>(PortalDb db, Scope scope, T answer, CancellationToken stop) =>
        db.Database.ExecuteSqlRawAsync(
            "update portal.operations set result = {3}::jsonb where agency_id = {0} and person_id = {1} and id = {2}",
            [scope.AgencyId, scope.PersonId, Id, JsonSerializer.Serialize(answer, Json)], stop);

    /// <summary>How an answer is kept and read back.</summary>
    public static readonly JsonSerializerOptions Json =
        NodaTime.Serialization.SystemTextJson.Extensions.ConfigureForNodaTime(new JsonSerializerOptions(), DateTimeZoneProviders.Tzdb);

    private static readonly JsonSerializerOptions Typed = new(Json) { DefaultIgnoreCondition = System.Text.Json.Serialization.JsonIgnoreCondition.WhenWritingNull };
}
