using TeamCircle.Core.Commitments;

namespace TeamCircle.Core.Tests;

/// <summary>Core decides and touches nothing: it stands on the base class library, on libraries of dates, of recurrence rules and of
/// distributions, and on the solver.</summary>
public sealed class RoomTests
{
    [Fact]
    public void Core_references_the_base_class_library_dates_distributions_and_the_solver_only()
    {
        string[] known = ["NodaTime", "Ical.Net", "Google.OrTools", "MathNet.Numerics"];
        var strangers = typeof(Ledger).Assembly.GetReferencedAssemblies().Select(a => a.Name!)
            .Where(name => !known.Contains(name) && !IsBaseLibrary(name));

        Assert.Empty(strangers);
    }

    // what sits beside the runtime itself, and not ASP.NET's folder or a package
    private static bool IsBaseLibrary(string name) =>
        File.Exists(Path.Combine(Path.GetDirectoryName(typeof(object).Assembly.Location)!, name + ".dll"));
}
