using System.Text.Json;
using Microsoft.AspNetCore.Antiforgery;
using Microsoft.AspNetCore.Mvc;
using TeamCircle.Data.Devices;

namespace TeamCircle.Web.Startup;

/// <summary>What the practice sheet's shell asks and sends, as JSON: contact, key, what to keep, and what was done. Never a redirect or a page.</summary>
internal static class DeviceDoor
{
    /// <summary>In bytes: fifty of the largest bodies.</summary>
    private const long LargestRequest = SyncOperations.MostAtOnce * SentOperation.LargestBody;

    /// <summary>Marks these addresses: their refusals are JSON, and they have a limit of their own.</summary>
    public sealed class Marker;

    public static void MapDevices(this WebApplication app)
    {
        var door = app.MapGroup("/device").WithMetadata(new Marker(), new SkipStatusCodePagesAttribute());
        door.MapGet("/contact", ContactAsync);
        door.MapGet("/key", KeyAsync);
        door.MapGet("/bundle", BundleAsync);
        door.MapGet("/picture/{id:int}", PictureAsync);
        door.MapPost("/enrol", EnrolAsync).AddEndpointFilter(CameFromUsAsync).WithMetadata(new RequestSizeLimitAttribute(4096));
        door.MapPost("/operations", OperationsAsync).AddEndpointFilter(CameFromUsAsync).WithMetadata(new RequestSizeLimitAttribute(LargestRequest));
    }

    public static IResult Refuse(int status, string why) => Results.Json(new { error = why }, DeviceJson.Options, statusCode: status);

    private static async Task<IResult> ContactAsync(
        HttpContext http, CurrentCaller caller, ReportContact report, ReadHeardHolds read, IAntiforgery forms, Guid? device, CancellationToken stop)
    {
        var (now, state) = await report.RunAsync(caller.Value, device, stop);
        var heard = await read.RunAsync(caller.Value, state, stop); // after the contact is kept: a hold that is set meanwhile counts as not heard
        return Json(new
        {
            serverTime = now,
            token = forms.GetAndStoreTokens(http).RequestToken,
            person = new { id = caller.Value.PersonId, initials = Initials(caller.Value.Name) },
            device = new { state, contactHours = heard.ContactHours },
            formats = new { least = SentOperation.LeastFormat, most = SentOperation.MostFormat },
            holds = heard.Holds,
            quiet = heard.Quiet,
        });
    }

    private static async Task<IResult> EnrolAsync(HttpContext http, CurrentCaller caller, EnrolDevice enrol, OpenDevice open, CancellationToken stop)
    {
        if (await ReadAsync(http, stop) is not { } json || Name(json) is not { } name)
            return Refuse(StatusCodes.Status400BadRequest, "This is no name of a device.");
        var outcome = await enrol.RunAsync(caller.Value, new(name), stop);
        return outcome.Value is { } made
            ? Json(await open.RunAsync(caller.Value, made.Device, stop))
            : Refuse(StatusCodes.Status400BadRequest, outcome.Problems[0].Message);
    }

    private static async Task<IResult> KeyAsync(CurrentCaller caller, OpenDevice open, Guid device, CancellationToken stop) =>
        await open.RunAsync(caller.Value, device, stop) is { } opened ? Json(opened) : NotYours();

    private static async Task<IResult> BundleAsync(CurrentCaller caller, ReadBundle read, Guid device, CancellationToken stop) =>
        await read.RunAsync(caller.Value, device, stop) is { } bundle ? Json(bundle) : NotYours();

    private static async Task<IResult> PictureAsync(CurrentCaller caller, ReadDevicePicture read, int id, CancellationToken stop) =>
        await read.RunAsync(caller.Value, id, stop) is { } jpeg ? Results.Bytes(jpeg, "image/jpeg") : Refuse(StatusCodes.Status404NotFound, "There is nothing here.");

    private static async Task<IResult> OperationsAsync(HttpContext http, CurrentCaller caller, SyncOperations sync, CancellationToken stop)
    {
        if (await ReadAsync(http, stop) is not { ValueKind: JsonValueKind.Object } json || !json.TryGetProperty("device", out var named) || !IsGuid(named, out var device)
            || !json.TryGetProperty("operations", out var operations) || operations.ValueKind != JsonValueKind.Array || operations.GetArrayLength() > SyncOperations.MostAtOnce)
            return Refuse(StatusCodes.Status400BadRequest, "This is no list of up to fifty operations of a device.");
        return await sync.RunAsync(caller.Value, device, [.. operations.EnumerateArray()], stop) is { } answers ? Json(new { answers }) : NotYours();
    }

    /// <summary>Another site can't make this browser send anything: the token is given by contact only, to our own pages.</summary>
    private static async ValueTask<object?> CameFromUsAsync(EndpointFilterInvocationContext context, EndpointFilterDelegate next) =>
        await context.HttpContext.RequestServices.GetRequiredService<IAntiforgery>().IsRequestValidAsync(context.HttpContext)
            ? await next(context)
            : Refuse(StatusCodes.Status400BadRequest, "This did not come from one of our pages. Ask for contact again, and send it with the token from there.");

    private static IResult Json(object? value) => Results.Json(value, DeviceJson.Options);

    private static IResult NotYours() => Refuse(StatusCodes.Status404NotFound, "This is none of your devices, or it was revoked.");

    private static string Initials(string name) => string.Concat(name.Split(' ', StringSplitOptions.RemoveEmptyEntries).Select(part => part[0]));

    private static bool IsGuid(JsonElement json, out Guid id)
    {
        id = default;
        return json.ValueKind == JsonValueKind.String && json.TryGetGuid(out id);
    }

    private static string? Name(JsonElement json) =>
        json.ValueKind == JsonValueKind.Object && json.TryGetProperty("name", out var name) && name.ValueKind == JsonValueKind.String ? name.GetString() : null;

    private static async Task<JsonElement?> ReadAsync(HttpContext http, CancellationToken stop)
    {
        try
        {
            using var document = await JsonDocument.ParseAsync(http.Request.Body, new JsonDocumentOptions { AllowDuplicateProperties = false }, stop);
            return document.RootElement.Clone();
        }
        catch (JsonException)
        {
            return null;
        }
    }
}
