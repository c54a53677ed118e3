using System.Buffers.Binary;
using System.Text;
using SkiaSharp;
using TeamCircle.Data.Routines;

namespace TeamCircle.Data.Tests.Routines;

/// <summary>Pictures are made anew: what can be seen goes over, and nothing else.</summary>
public sealed class CleanPictureTests
{
    /// <summary>Red on the left half, and blue in the lower right quarter, as it is stored.</summary>
    private static byte[] Encoded(SKEncodedImageFormat format, int width = 80, int height = 40)
    {
        using var surface = SKSurface.Create(new SKImageInfo(width, height));
        surface.Canvas.Clear(SKColors.Lime);
        using var paint = new SKPaint { Color = SKColors.Red };
        surface.Canvas.DrawRect(0, 0, width / 2f, height, paint);
        paint.Color = SKColors.Blue;
        surface.Canvas.DrawRect(width / 2f, height / 2f, width / 2f, height / 2f, paint);
        using var image = surface.Snapshot();
        using var data = image.Encode(format, 95);
        return data.ToArray();
    }

    /// <summary>A JPEG with EXIF as a telephone writes it: orientation, the camera's maker, and a place in the GPS directory.</summary>
    /// <remarks>TIFF 6.0, part 2, and EXIF 2.3, 4.6 (from memory): byte order, 42, first directory; entries of tag, type, count, value; tag 34853 points to GPS.</remarks>
    private static byte[] WithExif(byte[] jpeg, ushort orientation)
    {
        using var tiff = new MemoryStream();
        void U16(ushort value) { Span<byte> b = stackalloc byte[2]; BinaryPrimitives.WriteUInt16BigEndian(b, value); tiff.Write(b); }
        void U32(uint value) { Span<byte> b = stackalloc byte[4]; BinaryPrimitives.WriteUInt32BigEndian(b, value); tiff.Write(b); }
        void Entry(ushort tag, ushort type, uint count, uint value) { U16(tag); U16(type); U32(count); U32(value); }
        tiff.Write("MM\0*"u8);
        U32(8);
        U16(3); // entries of the first directory; it ends at 8 + 2 + 3 * 12 + 4 = 50
        Entry(0x010F, 2, 12, 80); // maker, text at 80
        Entry(0x0112, 3, 1, (uint)orientation << 16);
        Entry(0x8825, 4, 1, 50); // GPS directory at 50
        U32(0);
        U16(2); // 50 + 2 + 2 * 12 + 4 = 80
        Entry(1, 2, 2, 'N' << 24);
        Entry(2, 5, 3, 92); // latitude: three fractions at 92
        U32(0);
        tiff.Write("TellTaleCam\0"u8);
        foreach (var part in new uint[] { 47, 1, 36, 1, 2199, 100 })
            U32(part);
        var body = (byte[])[.. "Exif\0\0"u8, .. tiff.ToArray()];
        var length = (ushort)(body.Length + 2);
        return [0xFF, 0xD8, 0xFF, 0xE1, (byte)(length >> 8), (byte)length, .. body, .. jpeg[2..]];
    }

    /// <summary>The markers of a JPEG's segments up to its image data.</summary>
    private static IEnumerable<byte> Segments(byte[] jpeg)
    {
        for (var at = 2; jpeg[at + 1] != 0xDA; at += 2 + ((jpeg[at + 2] << 8) | jpeg[at + 3]))
            yield return jpeg[at + 1];
    }

    private static string ColorAt(CleanPicture picture, double x, double y)
    {
        using var bitmap = SKBitmap.Decode(picture.Jpeg);
        var color = bitmap.GetPixel((int)(x * picture.Width), (int)(y * picture.Height));
        return color is { Red: > 200, Green: < 60, Blue: < 60 } ? "red" : color is { Red: < 60, Green: < 60, Blue: > 200 } ? "blue" : color is { Green: > 200, Red: < 90 } ? "green" : color is { Red: > 240, Green: > 240, Blue: > 240 } ? "white" : color.ToString();
    }

    [Theory]
    [InlineData(SKEncodedImageFormat.Jpeg)]
    [InlineData(SKEncodedImageFormat.Png)]
    [InlineData(SKEncodedImageFormat.Webp)]
    public void Three_formats_become_a_jpeg(SKEncodedImageFormat format)
    {
        var clean = CleanPicture.Of(Encoded(format))!;

        Assert.Equal((80, 40), (clean.Width, clean.Height));
        Assert.Equal([0xFF, 0xD8, 0xFF], clean.Jpeg[..3]);
        Assert.Equal(("red", "green", "blue"), (ColorAt(clean, 0.2, 0.5), ColorAt(clean, 0.75, 0.25), ColorAt(clean, 0.75, 0.75)));
    }

    [Fact]
    public void No_place_camera_or_other_data_stays()
    {
        var sent = WithExif(Encoded(SKEncodedImageFormat.Jpeg), 1);
        Assert.Contains("TellTaleCam", Encoding.Latin1.GetString(sent), StringComparison.Ordinal); // or the test would prove nothing
        using (var codec = SKCodec.Create(new MemoryStream(WithExif(Encoded(SKEncodedImageFormat.Jpeg), 6))))
            Assert.Equal(SKEncodedOrigin.RightTop, codec.EncodedOrigin); // and another reader finds the directory

        var clean = CleanPicture.Of(sent)!;

        Assert.DoesNotContain((byte)0xE1, Segments(clean.Jpeg)); // EXIF and XMP
        Assert.DoesNotContain(Segments(clean.Jpeg), s => s is >= 0xE3 and <= 0xEF or 0xFE); // other applications' data, comments
        Assert.DoesNotContain("TellTaleCam", Encoding.Latin1.GetString(clean.Jpeg), StringComparison.Ordinal);
        Assert.DoesNotContain("Exif", Encoding.Latin1.GetString(clean.Jpeg), StringComparison.Ordinal);
    }

    // What is stored, as it is seen: red is the left half, blue the lower right quarter, green the upper right.
    [Theory]
    [InlineData(1, "left", "lower right")]
    [InlineData(2, "right", "lower left")]
    [InlineData(3, "right", "upper left")]
    [InlineData(4, "left", "upper right")]
    [InlineData(5, "upper", "lower right")]
    [InlineData(6, "upper", "lower left")]
    [InlineData(7, "lower", "upper left")]
    [InlineData(8, "lower", "upper right")]
    public void Orientation_is_applied(ushort orientation, string red, string blue)
    {
        var clean = CleanPicture.Of(WithExif(Encoded(SKEncodedImageFormat.Jpeg), orientation))!;

        Assert.Equal(orientation < 5 ? (80, 40) : (40, 80), (clean.Width, clean.Height));
        var (rx, ry) = Place(red);
        var (bx, by) = Place(blue);
        Assert.Equal(("red", "blue"), (ColorAt(clean, rx, ry), ColorAt(clean, bx, by)));

        static (double X, double Y) Place(string words) => (
            words.Contains("left", StringComparison.Ordinal) ? 0.2 : words.Contains("right", StringComparison.Ordinal) ? 0.8 : 0.5,
            words.Contains("upper", StringComparison.Ordinal) ? 0.2 : words.Contains("lower", StringComparison.Ordinal) ? 0.8 : 0.5);
    }

    [Fact]
    public void Large_picture_is_made_smaller_and_a_transparent_one_stands_on_white()
    {
        var large = CleanPicture.Of(Encoded(SKEncodedImageFormat.Jpeg, 4000, 3000))!;
        Assert.Equal((1600, 1200), (large.Width, large.Height));

        using var empty = new SKBitmap(new SKImageInfo(20, 10, SKColorType.Rgba8888, SKAlphaType.Premul));
        using var png = empty.Encode(SKEncodedImageFormat.Png, 100);
        Assert.Equal("white", ColorAt(CleanPicture.Of(png.ToArray())!, 0.5, 0.5));
    }

    [Fact]
    public void What_is_no_picture_is_refused()
    {
        Assert.Null(CleanPicture.Of([]));
        Assert.Null(CleanPicture.Of(Encoding.ASCII.GetBytes("GIF89a and so on, which is none of the three")));
        Assert.Null(CleanPicture.Of([0xFF, 0xD8, 0xFF, .. new byte[200]]));
        Assert.Null(CleanPicture.Of(Encoding.ASCII.GetBytes("<svg xmlns=\"http://www.w3.org/2000/svg\"><script/></svg>")));
        Assert.Null(CleanPicture.Of([.. Encoded(SKEncodedImageFormat.Jpeg), .. new byte[CleanPicture.MostBytes]]));
    }

    [Fact]
    public void Small_file_that_claims_to_be_a_huge_picture_is_refused_before_it_is_unpacked()
    {
        var png = Encoded(SKEncodedImageFormat.Png);
        BinaryPrimitives.WriteInt32BigEndian(png.AsSpan(16), 60_000); // width in the header of a PNG
        BinaryPrimitives.WriteInt32BigEndian(png.AsSpan(20), 60_000);
        BinaryPrimitives.WriteUInt32BigEndian(png.AsSpan(29), Crc(png.AsSpan(12, 17)));
        using (var codec = SKCodec.Create(new MemoryStream(png)))
            Assert.Equal(60_000, codec.Info.Width); // it is believed, so its size is what is refused

        Assert.Null(CleanPicture.Of(png));
    }

    /// <summary>The cyclic check of a PNG's chunk (PNG 1.2, annex D; from memory).</summary>
    private static uint Crc(ReadOnlySpan<byte> bytes)
    {
        var crc = uint.MaxValue;
        foreach (var one in bytes)
        {
            crc ^= one;
            for (var bit = 0; bit < 8; bit++)
                crc = (crc & 1) == 1 ? (crc >> 1) ^ 0xEDB88320 : crc >> 1;
        }
        return ~crc;
    }
}
