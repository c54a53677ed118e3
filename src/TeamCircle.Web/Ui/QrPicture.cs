using System.Globalization;
using System.Text;
using QRCoder;

namespace TeamCircle.Web.Ui;

/// <summary>A text as a square picture for a phone's camera, drawn as one SVG path: black on white in both themes, or no camera reads it.</summary>
/// <param name="Size">Squares on each side, the quiet zone among them.</param>
/// <param name="Path">The black squares, in an SVG path's own words.</param>
public sealed record QrPicture(int Size, string Path)
{
    public static QrPicture Of(string text)
    {
        using var code = QRCodeGenerator.GenerateQrCode(text, QRCodeGenerator.ECCLevel.M);
        var path = new StringBuilder();
        for (var y = 0; y < code.ModuleMatrix.Count; y++)
        {
            for (var x = 0; x < code.ModuleMatrix.Count; x++)
            {
                if (code.ModuleMatrix[y][x])
                    path.Append(CultureInfo.InvariantCulture, $"M{x} {y}h1v1h-1z");
            }
        }
        return new(code.ModuleMatrix.Count, path.ToString());
    }
}
