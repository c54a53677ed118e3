using System.Text.Json;
using TeamCircle.Core.Cases;

namespace TeamCircle.Core.Tests.Commitments;

/// <summary>The worked cases of Cases/ (its README names the source), compared field by field.</summary>
public sealed class WorkedCasesTests
{
    private static readonly string Folder = Path.Combine(AppContext.BaseDirectory, "Cases");

    public static TheoryData<string> Files() => [.. Directory.GetFiles(Folder, "*.json").Select(f => Path.GetFileName(f)!).Order()];

    [Theory]
    [MemberData(nameof(Files))]
    public void Case_is_answered_as_worked_out(string file)
    {
        var text = File.ReadAllText(Path.Combine(Folder, file));
        using var written = JsonDocument.Parse(text);
        using var answer = JsonDocument.Parse(CaseFile.WorkOut(text));

        var differences = new List<string>();
        Compare("", written.RootElement.GetProperty("expected"), answer.RootElement, differences);

        Assert.Empty(differences);
    }

    [Fact]
    public void Cases_are_all_there() => Assert.Equal(56, Files().Count);

    private static void Compare(string path, JsonElement expected, JsonElement answer, List<string> differences)
    {
        if (expected.ValueKind == JsonValueKind.Object && answer.ValueKind == JsonValueKind.Object)
        {
            foreach (var name in expected.EnumerateObject().Concat(answer.EnumerateObject()).Select(p => p.Name).Distinct())
            {
                if (expected.TryGetProperty(name, out var wanted) && answer.TryGetProperty(name, out var got))
                    Compare(path + "/" + name, wanted, got, differences);
                else
                    differences.Add($"{path}/{name} stands in one of the two only");
            }
        }
        else if (expected.ValueKind == JsonValueKind.Array && answer.ValueKind == JsonValueKind.Array)
        {
            if (expected.GetArrayLength() != answer.GetArrayLength())
                differences.Add($"{path} has {answer.GetArrayLength()} items, not {expected.GetArrayLength()}");
            foreach (var (item, i) in expected.EnumerateArray().Zip(answer.EnumerateArray()).Select((pair, i) => (pair, i)))
                Compare($"{path}/{i}", item.First, item.Second, differences);
        }
        else if (!AreAlike(expected, answer))
            differences.Add($"{path} is {answer.GetRawText()}, not {expected.GetRawText()}");
    }

    // whole numbers are equal or differ by more; a chance is worked out in another order than the expected one was
    private static bool AreAlike(JsonElement expected, JsonElement answer) =>
        expected.ValueKind == JsonValueKind.Number && answer.ValueKind == JsonValueKind.Number
            ? Math.Abs(expected.GetDouble() - answer.GetDouble()) < 1e-9
            : expected.GetRawText() == answer.GetRawText();
}
