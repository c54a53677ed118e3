namespace TeamCircle.Web.Startup;

internal static class ProblemPages
{
    /// <summary>Missing and forbidden pages, and our own faults, all end in one plain page; a developer sees the trace.</summary>
    public static void UseProblemPages(this WebApplication app)
    {
        if (!app.Environment.IsDevelopment())
            app.UseExceptionHandler("/problem/500");
        app.UseStatusCodePagesWithReExecute("/problem/{0}");
    }
}
