using System.Diagnostics;
using System.Globalization;
using System.Xml;
using NodaTime;

namespace TeamCircle.Benchmarks;

/// <summary>A spreadsheet document (OpenDocument, flat XML) with visits on one sheet and a sum for each service and week on another, and the office suite that calculates it.</summary>
internal sealed class SpreadsheetFile : IDisposable
{
    private const string Office = "urn:oasis:names:tc:opendocument:xmlns:office:1.0", Table = "urn:oasis:names:tc:opendocument:xmlns:table:1.0";
    private static readonly LocalDate DayZero = new(1899, 12, 30); // OpenDocument counts dates from here

    private readonly string _folder = Directory.CreateTempSubdirectory("teamcircle-spreadsheet-").FullName;
    private readonly List<(int Service, LocalDate Day, int Minutes)> _visits;
    private readonly List<(int Service, int Owed)> _services;

    /// <param name="services">What each owes in all <paramref name="weeks"/> together, minutes: as much in each.</param>
    public SpreadsheetFile(List<(int Service, LocalDate Day, int Minutes)> visits, List<(int Service, int Owed)> services, List<LocalDate> weeks)
    {
        (_visits, _services, Weeks) = (visits, services, weeks);
        Write("sums", withFormulas: true);
        Write("list", withFormulas: false);
    }

    /// <summary>Their first days.</summary>
    public List<LocalDate> Weeks { get; }

    /// <summary>Has the suite open the document, calculate it and write the first sheet as text; minutes lacking by service.</summary>
    /// <exception cref="InvalidOperationException">The suite failed.</exception>
    public Dictionary<int, int> Calculate()
    {
        Convert("sums");
        return File.ReadLines(Path.Combine(_folder, "sums.csv")).Skip(1).Select(line => line.Split(','))
            .ToDictionary(cells => int.Parse(cells[0], CultureInfo.InvariantCulture), cells => int.Parse(cells[^1], CultureInfo.InvariantCulture));
    }

    /// <summary>The same document without its formulas: what starting the suite and reading the visits take.</summary>
    public void OpenOnly() => Convert("list");

    private void Convert(string name)
    {
        var start = new ProcessStartInfo("soffice", ["--headless", $"-env:UserInstallation=file://{_folder}/profile", "--convert-to", "csv", "--outdir", _folder, Path.Combine(_folder, name + ".fods")])
        {
            RedirectStandardOutput = true,
            RedirectStandardError = true,
        };
        using var suite = Process.Start(start)!;
        var said = suite.StandardOutput.ReadToEndAsync();
        var complained = suite.StandardError.ReadToEnd();
        suite.WaitForExit();
        if (suite.ExitCode != 0 || !File.Exists(Path.Combine(_folder, name + ".csv")))
            throw new InvalidOperationException($"The office suite failed: {said.Result} {complained}");
    }

    private void Write(string name, bool withFormulas)
    {
        using var xml = XmlWriter.Create(Path.Combine(_folder, name + ".fods"));
        xml.WriteStartElement("office", "document", Office);
        xml.WriteAttributeString("xmlns", "table", null, Table);
        xml.WriteAttributeString("xmlns", "of", null, "urn:oasis:names:tc:opendocument:xmlns:of:1.2");
        xml.WriteAttributeString("version", Office, "1.3");
        xml.WriteAttributeString("mimetype", Office, "application/vnd.oasis.opendocument.spreadsheet");
        xml.WriteStartElement("body", Office);
        xml.WriteStartElement("spreadsheet", Office);
        WriteSums(xml, withFormulas);
        WriteVisits(xml);
        xml.WriteEndElement();
        xml.WriteEndElement();
        xml.WriteEndElement();
    }

    /// <summary>A row for each service: what a week owes, what each week gave, and what lacks in all weeks. More in one week does not make up for another.</summary>
    private void WriteSums(XmlWriter xml, bool withFormulas)
    {
        var (last, rows) = ((char)('B' + Weeks.Count), _visits.Count);
        BeginSheet(xml, "Services");
        Row(xml, [0, 0, .. Weeks.Select(Number), 0]);
        for (var i = 0; i < _services.Count; i++)
        {
            xml.WriteStartElement("table-row", Table);
            Cell(xml, _services[i].Service);
            Cell(xml, _services[i].Owed / Weeks.Count);
            for (var column = 'C'; column <= last && withFormulas; column++)
                Formula(xml, $"SUMIFS([Visits.$C$1:.$C${rows}];[Visits.$A$1:.$A${rows}];[.$A{i + 2}];[Visits.$B$1:.$B${rows}];\">=\"&[.{column}$1];[Visits.$B$1:.$B${rows}];\"<=\"&([.{column}$1]+6))");
            if (withFormulas)
                Formula(xml, $"SUMPRODUCT(([.$B{i + 2}]>[.C{i + 2}:.{last}{i + 2}])*([.$B{i + 2}]-[.C{i + 2}:.{last}{i + 2}]))");
            xml.WriteEndElement();
        }
        xml.WriteEndElement();
    }

    private void WriteVisits(XmlWriter xml)
    {
        BeginSheet(xml, "Visits");
        foreach (var (service, day, minutes) in _visits)
            Row(xml, [service, Number(day), minutes]);
        xml.WriteEndElement();
    }

    private static int Number(LocalDate day) => NodaTime.Period.DaysBetween(DayZero, day);

    private static void BeginSheet(XmlWriter xml, string name)
    {
        xml.WriteStartElement("table", Table);
        xml.WriteAttributeString("name", Table, name);
    }

    private static void Row(XmlWriter xml, IEnumerable<int> values)
    {
        xml.WriteStartElement("table-row", Table);
        foreach (var value in values)
            Cell(xml, value);
        xml.WriteEndElement();
    }

    private static void Cell(XmlWriter xml, int value)
    {
        xml.WriteStartElement("table-cell", Table);
        xml.WriteAttributeString("value-type", Office, "float");
        xml.WriteAttributeString("value", Office, value.ToString(CultureInfo.InvariantCulture));
        xml.WriteEndElement();
    }

    private static void Formula(XmlWriter xml, string formula)
    {
        xml.WriteStartElement("table-cell", Table);
        xml.WriteAttributeString("formula", Table, "of:=" + formula);
        xml.WriteEndElement();
    }

    public void Dispose() => Directory.Delete(_folder, recursive: true);
}
