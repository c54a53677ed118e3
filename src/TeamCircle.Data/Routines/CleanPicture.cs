using SkiaSharp;

namespace TeamCircle.Data.Routines;

/// <summary>A picture made anew, dot by dot, from one that somebody sent: nothing but what can be seen goes over, so no place, time or camera.</summary>
/// <param name="Jpeg">Upright; at most <see cref="LongestSide"/> pixels wide and high.</param>
public sealed record CleanPicture(byte[] Jpeg, int Width, int Height)
{
    public const int MostBytes = 8 << 20, LongestSide = 1600;

    /// <summary>What a picture may take once it is unpacked: a small file can claim to be a huge picture.</summary>
    private const long MostPixels = 60_000_000;

    private const int Quality = 85;

    private static readonly Dictionary<SKEncodedImageFormat, Func<ReadOnlySpan<byte>, bool>> Beginnings = new()
    {
        [SKEncodedImageFormat.Jpeg] = bytes => bytes.StartsWith((ReadOnlySpan<byte>)[0xFF, 0xD8, 0xFF]),
        [SKEncodedImageFormat.Png] = bytes => bytes.StartsWith((ReadOnlySpan<byte>)[0x89, 0x50, 0x4E, 0x47, 0x0D, 0x0A, 0x1A, 0x0A]),
        [SKEncodedImageFormat.Webp] = bytes => bytes.Length > 12 && bytes.StartsWith("RIFF"u8) && bytes[8..].StartsWith("WEBP"u8),
    };

    /// <summary>Null where it is no picture that can be read: not JPEG, PNG or WebP, broken, or too large.</summary>
    public static CleanPicture? Of(byte[] sent)
    {
        if (sent.Length > MostBytes || !Beginnings.Any(b => b.Value(sent)))
            return null;
        using var data = SKData.CreateCopy(sent);
        using var codec = SKCodec.Create(data);
        if (codec is null || !Beginnings.TryGetValue(codec.EncodedFormat, out var begins) || !begins(sent)
            || (long)codec.Info.Width * codec.Info.Height > MostPixels)
            return null;
        using var decoded = Decode(codec);
        return decoded is null ? null : Draw(decoded, codec.EncodedOrigin);
    }

    /// <summary>At about the size that is needed, where the format can: a large photograph is never unpacked whole.</summary>
    private static SKBitmap? Decode(SKCodec codec)
    {
        var size = codec.GetScaledDimensions(Math.Min(1f, 2f * LongestSide / Math.Max(codec.Info.Width, codec.Info.Height)));
        var bitmap = new SKBitmap(new SKImageInfo(size.Width, size.Height, SKColorType.Rgba8888, SKAlphaType.Premul, SKColorSpace.CreateSrgb()));
        if (codec.GetPixels(bitmap.Info, bitmap.GetPixels()) is SKCodecResult.Success)
            return bitmap;
        bitmap.Dispose();
        return null;
    }

    private static CleanPicture Draw(SKBitmap decoded, SKEncodedOrigin origin)
    {
        var turned = origin is SKEncodedOrigin.LeftTop or SKEncodedOrigin.RightTop or SKEncodedOrigin.RightBottom or SKEncodedOrigin.LeftBottom;
        var (wide, high) = turned ? (decoded.Height, decoded.Width) : (decoded.Width, decoded.Height);
        var scale = Math.Min(1f, (float)LongestSide / Math.Max(wide, high));
        var (width, height) = (Math.Max(1, (int)Math.Round(wide * scale)), Math.Max(1, (int)Math.Round(high * scale)));
        using var surface = SKSurface.Create(new SKImageInfo(width, height, SKColorType.Rgba8888, SKAlphaType.Premul));
        surface.Canvas.Clear(SKColors.White); // what was transparent
        surface.Canvas.Scale((float)width / wide, (float)height / high);
        surface.Canvas.Concat(Upright(origin, wide, high));
        using var image = SKImage.FromBitmap(decoded);
        surface.Canvas.DrawImage(image, 0, 0, new SKSamplingOptions(SKFilterMode.Linear, SKMipmapMode.Linear));
        using var drawn = surface.Snapshot();
        using var jpeg = drawn.Encode(SKEncodedImageFormat.Jpeg, Quality);
        return new(jpeg.ToArray(), width, height);
    }

    /// <summary>How each of the eight orientations of EXIF 2.3, 4.6.4 (tag 274) is turned to stand upright.</summary>
    /// <param name="wide">Of the upright picture.</param>
    private static SKMatrix Upright(SKEncodedOrigin origin, int wide, int high) => origin switch
    {
        SKEncodedOrigin.TopRight => new(-1, 0, wide, 0, 1, 0, 0, 0, 1),
        SKEncodedOrigin.BottomRight => new(-1, 0, wide, 0, -1, high, 0, 0, 1),
        SKEncodedOrigin.BottomLeft => new(1, 0, 0, 0, -1, high, 0, 0, 1),
        SKEncodedOrigin.LeftTop => new(0, 1, 0, 1, 0, 0, 0, 0, 1),
        SKEncodedOrigin.RightTop => new(0, -1, wide, 1, 0, 0, 0, 0, 1),
        SKEncodedOrigin.RightBottom => new(0, -1, wide, -1, 0, high, 0, 0, 1),
        SKEncodedOrigin.LeftBottom => new(0, 1, 0, -1, 0, high, 0, 0, 1),
        _ => SKMatrix.Identity,
    };
}
