using TeamCircle.Web.Pages.Finding;
using TeamCircle.Web.Pages.Import;
using TeamCircle.Web.Pages.MakeUps;
using TeamCircle.Web.Ui;

namespace TeamCircle.Web.Startup;

internal static class PagesSetup
{
    public static void AddPages(this IServiceCollection services)
    {
        services.AddRazorPages().AddMvcOptions(mvc => mvc.ModelBinderProviders.Insert(0, new LocalTimeBinder()));
        services.AddSingleton<ImportRuns>();
        services.AddSingleton<MakeUpRuns>();
        services.AddSingleton<SealedWords>();
    }
}
