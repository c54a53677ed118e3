using System.Security.Cryptography;
using System.Text;
using System.Text.Json;
using Microsoft.AspNetCore.StaticAssets;

namespace TeamCircle.Web.Startup;

/// <summary>
/// The practice pages: one static shell without any learner in it, and the worker that keeps its files on the device. What the pages
/// show they read from the device itself.
/// </summary>
internal static class PractiseShell
{
    private const string Scripts = "js/practise/", Worker = "js/practise/worker.js", Manifest = "practise.webmanifest", Page = "practise.html";

    private static readonly string[] Files = [Page, "favicon.svg", "css/site.css", "css/parts.css", "css/practise.css"];

    private static readonly string[] Folders = [Scripts, "lib/fonts/", "lib/fonts-mono/"];

    public static void MapPractiseShell(this WebApplication app)
    {
        app.MapGet("/practise", () => Results.Text(Read(app, Page), "text/html", Encoding.UTF8));
        app.MapGet("/practise/app.webmanifest", () => Results.Text(Read(app, Manifest), "application/manifest+json", Encoding.UTF8));
        app.MapGet("/practise/worker.js", (HttpContext http) =>
        {
            http.Response.Headers["Service-Worker-Allowed"] = "/practise"; // its own folder ends in a slash, the page does not
            return Results.Text(WriteWorker(app), "text/javascript", Encoding.UTF8);
        });
        app.MapGet("/routines/{id:int}/practise", (int id) => Results.Redirect($"/practise#/routine/{id}"));
    }

    /// <summary>The files to keep with their fingerprints, as the build wrote them down, and then the worker's own text.</summary>
    private static string WriteWorker(WebApplication app)
    {
        var files = Kept(app).OrderBy(f => f.Address, StringComparer.Ordinal).Select(f => new[] { f.Address, f.Integrity }).ToList();
        var list = JsonSerializer.Serialize(files);
        var release = Convert.ToHexStringLower(SHA256.HashData(Encoding.UTF8.GetBytes(list)))[..16];
        return $"const files = {list};\nconst release = \"{release}\";\n{Read(app, Worker)}";
    }

    private static IEnumerable<(string Address, string Integrity)> Kept(WebApplication app) =>
        from endpoint in ((IEndpointRouteBuilder)app).DataSources.SelectMany(s => s.Endpoints)
        let asset = endpoint.Metadata.GetMetadata<StaticAssetDescriptor>()
        where asset is not null && asset.Selectors.Count == 0 && asset.Route == asset.AssetPath && IsKept(asset.Route)
        select ("/" + asset.Route, asset.Properties.FirstOrDefault(p => p.Name == "integrity")?.Value ?? Fingerprint(app, asset.Route));

    /// <summary>While it is being worked on the build's fingerprints are left out, since files change under it.</summary>
    private static string Fingerprint(WebApplication app, string route)
    {
        using var file = app.Environment.WebRootFileProvider.GetFileInfo(route).CreateReadStream();
        return "sha256-" + Convert.ToBase64String(SHA256.HashData(file));
    }

    private static bool IsKept(string route) =>
        Files.Contains(route)
        || (route != Worker && Path.GetExtension(route) is ".js" or ".woff2" && Array.Exists(Folders, folder => route.StartsWith(folder, StringComparison.Ordinal)));

    private static string Read(WebApplication app, string file)
    {
        using var reader = new StreamReader(app.Environment.WebRootFileProvider.GetFileInfo(file).CreateReadStream());
        return reader.ReadToEnd();
    }
}
