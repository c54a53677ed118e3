using System.Globalization;
using CsvHelper;

namespace TeamCircle.Data.Rights;

/// <summary>What a column of the database holds; docs/data-classes.md says what may be done with each.</summary>
public enum DataClass
{
    /// <summary>Numbers that only join rows.</summary>
    Key,

    /// <summary>What the portal keeps for itself: versions, hashes, moments of recording, leases.</summary>
    Machine,

    /// <summary>What holds for the whole agency: calendar, policy, places.</summary>
    Agency,

    /// <summary>About people who work here, and seats: names, addresses, hours, licences.</summary>
    Staff,

    /// <summary>Passwords, keys, tokens and what they open, hashed or sealed.</summary>
    Secret,

    /// <summary>Who a learner is: names, birthday, codes.</summary>
    Name,

    /// <summary>Facts of a learner's record: days, minutes, figures, who did what.</summary>
    Record,

    /// <summary>What somebody wrote or drew of a learner.</summary>
    Words,

    /// <summary>What a family said, and to whom and how something went to it.</summary>
    Family,

    /// <summary>Who changed or opened what: the trail of changes and the record of access.</summary>
    Trail,
}

/// <param name="Table">With its schema.</param>
public sealed record DataColumn(string Table, string Column, DataClass Class);

/// <summary>The class of every column of the schema <c>portal</c>, and of those of <c>account</c> that are no secret: data-classes.csv.</summary>
/// <remarks>A column of <c>account</c> that the file does not name is a secret: the strictest by default.</remarks>
public static class DataClasses
{
    private static readonly Lazy<IReadOnlyList<DataColumn>> Known = new(Read);

    public static IReadOnlyList<DataColumn> All => Known.Value;

    /// <summary>Whether it belongs to a learner's record, and so into a copy of it.</summary>
    public static bool IsOfRecord(DataClass one) => one is DataClass.Name or DataClass.Record or DataClass.Words or DataClass.Family;

    private static List<DataColumn> Read()
    {
        using var file = new StreamReader(typeof(DataClasses).Assembly.GetManifestResourceStream("data-classes.csv")!);
        using var csv = new CsvReader(file, CultureInfo.InvariantCulture);
        var all = new List<DataColumn>();
        csv.Read();
        csv.ReadHeader();
        while (csv.Read())
            all.Add(new(csv.GetField("table")!, csv.GetField("column")!, Enum.Parse<DataClass>(csv.GetField("class")!, ignoreCase: true)));
        return all;
    }
}
