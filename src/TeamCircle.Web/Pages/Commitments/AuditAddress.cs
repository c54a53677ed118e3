using System.Globalization;
using NodaTime;
using NodaTime.Text;
using TeamCircle.Data.Commitments;
using TeamCircle.Web.Ui;

namespace TeamCircle.Web.Pages.Commitments;

/// <summary>Addresses of an audit as a person asked for it, and of the workings that its figures lead to.</summary>
public sealed record AuditAddress(int Period, LocalDate AsOf, AuditFilter Filter)
{
    private string When => $"period={Period.ToString(CultureInfo.InvariantCulture)}&asOf={LocalDatePattern.Iso.Format(AsOf)}";

    public string All => $"/audit?{When}&by={Filter.By}";

    public string Screen(int screen) => string.Create(CultureInfo.InvariantCulture, $"/audit?{When}&{Narrowing}&screen={screen}");

    public string Export(SheetKind kind) => $"/audit?handler={kind}&{When}&{Narrowing}";

    /// <summary>The same audit, narrowed to one provider's share.</summary>
    public string OfProvider(int person) => string.Create(CultureInfo.InvariantCulture, $"/audit?{When}&by={AuditBy.Provider}&person={person}#lines");

    public string Working(CommitmentLine line) =>
        string.Create(CultureInfo.InvariantCulture, $"/audit/{(line.IsProbes ? "goals" : "services")}/{line.Id}?{When}");

    /// <summary>The same working, opened at the oldest window in which something is undecided.</summary>
    public string Undecided(AuditLine line) => Working(line.Line) + WindowView.OldestUndecided(line.Line, line.Balance);

    private string Narrowing => string.Create(
        CultureInfo.InvariantCulture,
        $"by={Filter.By}&status={Filter.Status}&discipline={Filter.Discipline}&person={Filter.Person}&learner={Filter.Learner}");
}
