using System.Globalization;
using CsvHelper;
using Microsoft.AspNetCore.Mvc.RazorPages;
using Microsoft.AspNetCore.Mvc.RazorPages.Infrastructure;
using TeamCircle.Core;
using TeamCircle.Core.People;

namespace TeamCircle.Web.Startup.Access;

/// <summary>One line of the matrix: a page's handler, or a mapped address.</summary>
/// <param name="Page">A page's path below Pages ("/Sessions/Log"), or a mapped address's pattern ("/health/live").</param>
/// <param name="Handler">The handler's name; empty for the unnamed one.</param>
/// <param name="Verb">GET also answers HEAD.</param>
/// <param name="Who">Any one opens; the first that does is the one recorded, and decides how far the request reaches.</param>
public sealed record AccessLine(string Page, string Handler, string Verb, Subject Subject, IReadOnlyList<Ground> Who)
{
    public string Key => KeyOf(Page, Handler, Verb);

    public bool IsOpenToAnyone => Who.Contains(Ground.Anyone);

    internal static string KeyOf(string page, string handler, string verb) =>
        $"{(HttpMethods.IsHead(verb) ? "GET" : verb.ToUpperInvariant())} {page} {handler}".TrimEnd();
}

/// <summary>
/// Who may do what: access-matrix.csv, the one file that the page filter, the tests and docs/access-matrix.md read.
/// What it lacks is denied.
/// </summary>
public sealed class AccessMatrix
{
    private readonly Dictionary<string, AccessLine> _lines;

    private AccessMatrix(IEnumerable<AccessLine> lines) => _lines = lines.ToDictionary(l => l.Key);

    public IReadOnlyCollection<AccessLine> Lines => _lines.Values;

    /// <exception cref="FormatException">A line can't be read, or could never open.</exception>
    public static AccessMatrix Read()
    {
        using var file = new StreamReader(typeof(AccessMatrix).Assembly.GetManifestResourceStream("access-matrix.csv")!);
        return Read(file);
    }

    public static AccessMatrix Read(TextReader file)
    {
        using var csv = new CsvReader(file, CultureInfo.InvariantCulture);
        var lines = new List<AccessLine>();
        csv.Read();
        csv.ReadHeader();
        while (csv.Read())
            lines.Add(LineOf(csv));
        return new AccessMatrix(lines);
    }

    public AccessLine? Find(string page, string handler, string verb) => _lines.GetValueOrDefault(AccessLine.KeyOf(page, handler, verb));

    /// <summary>
    /// The line of what a request would run; null where there is none, or where the page has handlers and none of them
    /// answers this request (the framework would show the page all the same).
    /// </summary>
    public AccessLine? Find(CompiledPageActionDescriptor page, HandlerMethodDescriptor? handler) =>
        handler is not null ? Find(page.ViewEnginePath, handler.Name ?? "", handler.HttpMethod)
        : page.HandlerMethods.Count == 0 ? Find(page.ViewEnginePath, "", "GET")
        : null;

    private static AccessLine LineOf(CsvReader csv)
    {
        var line = new AccessLine(
            csv.GetField("page")!.Trim(), csv.GetField("handler")!.Trim(), csv.GetField("verb")!.Trim().ToUpperInvariant(),
            Code<Subject>(csv, csv.GetField("subject")!),
            [.. csv.GetField("who")!.Split(' ', StringSplitOptions.RemoveEmptyEntries).Select(w => Code<Ground>(csv, w))]);
        if (line.Who.Count == 0 || (line.Subject is Subject.None or Subject.Learners or Subject.Person && line.Who.Any(AccessRules.NeedsLearner)))
            throw new FormatException($"Line {csv.Parser.Row} of access-matrix.csv could never open: its subject is no learner, or nobody stands under who.");
        return line;
    }

    private static T Code<T>(CsvReader csv, string word) where T : struct, Enum =>
        Words.Find<T>(word.Replace('-', ' ')) ?? throw new FormatException($"Line {csv.Parser.Row} of access-matrix.csv says '{word}', which is no {typeof(T).Name}.");
}
