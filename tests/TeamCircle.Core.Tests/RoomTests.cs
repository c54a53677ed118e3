using TeamCircle.Core.Commitments;

namespace TeamCircle.Core.Tests;

/// <summary>Core decides and touches nothing: it stands on the base class library, on a library of dates and on one that works out recurrence rules.</summary>
public sealed class RoomTests
{
    [Fact]
    public void Core_references_the_base_class_library_and_libraries_of_dates_only()
    {
        var strangers = typeof(Ledger).Assembly.GetReferencedAssemblies().Select(a => a.Name!)
            .Where(name => name is not ("NodaTime" or "Ical.Net") && !IsBaseLibrary(name));

        Assert.Empty(strangers);
    }

    // what sits beside the runtime itself, and not ASP.NET's folder or a package
    private static bool IsBaseLibrary(string name) =>
        File.Exists(Path.Combine(Path.GetDirectoryName(typeof(object).Assembly.Location)!, name + ".dll"));
}
