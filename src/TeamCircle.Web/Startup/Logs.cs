using System.Globalization;
using Serilog;
using Serilog.Events;
using TeamCircle.Data;

namespace TeamCircle.Web.Startup;

/// <summary>What is logged: that something happened and where in the code, never whom it was about.</summary>
/// <remarks>
/// Requests are logged by the pattern of their page ("/learners/{id}"), without query and values. Faults are logged as
/// types and places, without messages: a message may quote what somebody typed.
/// </remarks>
internal static class Logs
{
    private const string Line = "{Timestamp:yyyy-MM-dd HH:mm:ss.fff zzz} [{Level:u3}] {SourceContext} {Message:lj}{NewLine}";
    private const int HostStartFailed = 11; // Program prints it as one line

    public static void AddLog(this WebApplicationBuilder builder)
    {
        var folder = builder.Configuration["Logs:Folder"] ?? PortalFolders.From(builder.Environment.ContentRootPath).Logs;
        var console = Line + (builder.Environment.IsDevelopment() ? "{Exception}" : "{Fault}");
        builder.Services.AddSerilog(log => log
            .MinimumLevel.Override("Microsoft", LogEventLevel.Warning)
            .MinimumLevel.Override("System", LogEventLevel.Warning)
            // EF writes the text of a failed save into its message; whoever handles the exception logs it without.
            .MinimumLevel.Override("Microsoft.EntityFrameworkCore", LogEventLevel.Fatal)
            // The request's own line already carries the fault.
            .MinimumLevel.Override("Microsoft.AspNetCore.Diagnostics.ExceptionHandlerMiddleware", LogEventLevel.Fatal)
            // The keys lie in the account schema, reached by one role only; said once, in docs/decisions/0006-signing-in.md.
            .MinimumLevel.Override("Microsoft.AspNetCore.DataProtection.KeyManagement.XmlKeyManager", LogEventLevel.Error)
            .Filter.ByExcluding(IsHostStartFailed)
            .Enrich.With<FaultPlaces>()
            .WriteTo.Console(outputTemplate: console, formatProvider: CultureInfo.InvariantCulture)
            .WriteTo.File(
                Path.Combine(folder, "portal-.log"),
                outputTemplate: Line + "{Fault}",
                formatProvider: CultureInfo.InvariantCulture,
                rollingInterval: RollingInterval.Day,
                retainedFileCountLimit: 31,
                shared: true), preserveStaticLogger: true);
    }

    /// <summary>Inside the problem pages, so that a line names the page that was asked for and not the one that says sorry.</summary>
    public static void UseRequestLog(this WebApplication app) => app.UseSerilogRequestLogging(options =>
    {
        options.Logger = app.Services.GetRequiredService<Serilog.ILogger>(); // this portal's own: several may run in one process
        options.MessageTemplate = "{Method} {Page} answered {Status} in {Milliseconds:0} ms";
        options.GetLevel = (context, _, fault) => fault is not null || context.Response.StatusCode >= 500 ? LogEventLevel.Error
            : IsQuiet(context) ? LogEventLevel.Debug : LogEventLevel.Information;
        options.GetMessageTemplateProperties = (context, _, milliseconds, status) =>
        [
            new("Method", new ScalarValue(context.Request.Method)),
            new("Page", new ScalarValue(Pattern(context))),
            new("Status", new ScalarValue(status)),
            new("Milliseconds", new ScalarValue(milliseconds)),
        ];
    });

    private static string Pattern(HttpContext context) =>
        context.GetEndpoint() is RouteEndpoint { RoutePattern.RawText: { } pattern } ? "/" + pattern.TrimStart('/') : "(no page)";

    private static bool IsQuiet(HttpContext context) =>
        context.Request.Path.StartsWithSegments("/health") || context.Request.Path.StartsWithSegments("/problem")
        || Path.HasExtension(context.Request.Path.Value);

    private static bool IsHostStartFailed(LogEvent one) =>
        one.Properties.TryGetValue("EventId", out var id)
        && id is StructureValue parts
        && parts.Properties.Any(part => part is { Name: "Id", Value: ScalarValue { Value: HostStartFailed } })
        && one.Properties.TryGetValue("SourceContext", out var source)
        && source is ScalarValue { Value: "Microsoft.Extensions.Hosting.Internal.Host" };
}
