using System.Text.Json;

namespace TeamCircle.Core.Tests.Checks;

/// <summary>The published values beside this file; its README says where each comes from.</summary>
internal static class Published
{
    private static readonly string Folder = Path.Combine(AppContext.BaseDirectory, "Checks");

    public static JsonElement Read(string file)
    {
        using var document = JsonDocument.Parse(File.ReadAllText(Path.Combine(Folder, file)));
        return document.RootElement.Clone();
    }

    public static decimal[] Decimals(this JsonElement list) => [.. list.EnumerateArray().Select(v => v.GetDecimal())];

    public static int[] Numbers(this JsonElement list) => [.. list.EnumerateArray().Select(v => v.GetInt32())];

    /// <summary>Follows names downward, such as "NAP/Est".</summary>
    public static JsonElement At(this JsonElement element, string path) => path.Split('/').Aggregate(element, (at, name) => at.GetProperty(name));

    /// <summary>Exact arithmetic is held to 1e-9; the published values print up to 13 figures.</summary>
    public static void Exactly(JsonElement published, Figure figure) => Assert.Equal(published.GetDouble(), Assert.NotNull(figure.Value), 1e-9);

    /// <summary>Standard errors, intervals and p are held to 1e-6 of their size.</summary>
    public static void Closely(JsonElement published, Figure figure) => Closely(published.GetDouble(), figure);

    public static void Closely(double published, Figure figure, double share = 1e-6) =>
        Assert.Equal(published, Assert.NotNull(figure.Value), Math.Max(1e-12, share * Math.Abs(published)));
}
