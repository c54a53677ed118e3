using System.Buffers.Binary;
using System.Collections.Concurrent;
using System.Globalization;
using System.Text;
using Markdig;
using Markdig.Extensions.AutoIdentifiers;
using Markdig.Renderers;
using Markdig.Renderers.Html;
using Markdig.Syntax;
using Markdig.Syntax.Inlines;
using Microsoft.AspNetCore.Html;

namespace TeamCircle.Web.Pages.Guide;

/// <summary>The files of docs/guide as the build put them in: one source for whoever reads them in the repository and for the portal's help.</summary>
public static class GuideFiles
{
    private const string Folder = "guide/", Pictures = "pictures/";

    private static readonly MarkdownPipeline Pipeline = new MarkdownPipelineBuilder()
        .DisableHtml().UsePipeTables().UseAutoIdentifiers(AutoIdentifierOptions.GitHub).Build();

    private static readonly ConcurrentDictionary<string, GuideText?> Read = new();

    /// <summary>The file's text; null where there is no such file.</summary>
    /// <param name="name">Without ending: <c>provider</c>.</param>
    public static GuideText? Find(string name) => Read.GetOrAdd(name, ReadFile);

    /// <summary>A picture as PNG; null where there is none of that name.</summary>
    public static Stream? OpenPicture(string name) => Open(Pictures + name);

    private static GuideText? ReadFile(string name)
    {
        using var stream = Open(name + ".md");
        if (stream is null)
            return null;
        using var reader = new StreamReader(stream);
        var document = Markdown.Parse(reader.ReadToEnd(), Pipeline);
        foreach (var link in document.Descendants<LinkInline>())
            Lead(link);
        List<(HeadingBlock? Heading, StringBuilder Html)> parts = [(null, new())];
        foreach (var block in document)
        {
            if (block is HeadingBlock { Level: 2 } heading)
                parts.Add((heading, new()));
            if (block is not HeadingBlock { Level: 1 })
                parts[^1].Html.Append(Html(block));
        }
        return new(
            WordsOf(document.OfType<HeadingBlock>().First(h => h.Level == 1)), new HtmlString(parts[0].Html.ToString()),
            [.. parts.Skip(1).Select(p => new GuideSection(new(WordsOf(p.Heading!), p.Heading!.GetAttributes().Id!), new HtmlString(p.Html.ToString())))]);
    }

    private static string Html(Block block)
    {
        using var writer = new StringWriter(CultureInfo.InvariantCulture);
        var renderer = new HtmlRenderer(writer);
        Pipeline.Setup(renderer);
        renderer.Render(block);
        return writer.ToString();
    }

    /// <summary>Where a link leads in the portal. A page of docs that is no part of the help can't be opened there: its words stay.</summary>
    private static void Lead(LinkInline link)
    {
        var url = link.Url ?? "";
        if (link.IsImage)
            Measure(link, url);
        else if (!url.StartsWith('#') && url.Split('#') is [var file, ..] parts && file.EndsWith(".md", StringComparison.Ordinal))
            link.Url = file.Contains('/') ? null : $"/help{(file is "README.md" ? "" : "/" + file[..^3])}{(parts.Length > 1 ? "#" + parts[1] : "")}";
        if (link is { IsImage: false, Url: null })
            link.ReplaceBy(new EmphasisInline { DelimiterChar = '*', DelimiterCount = 1 });
    }

    // with its size the page stands still while pictures come
    private static void Measure(LinkInline link, string url)
    {
        link.Url = "/help/" + url;
        using var picture = Open(url);
        Span<byte> head = stackalloc byte[24];
        if (picture is null || picture.ReadAtLeast(head, head.Length, throwOnEndOfStream: false) < head.Length)
            return;
        var attributes = link.GetAttributes();
        attributes.AddProperty("width", BinaryPrimitives.ReadInt32BigEndian(head[16..]).ToString(CultureInfo.InvariantCulture));
        attributes.AddProperty("height", BinaryPrimitives.ReadInt32BigEndian(head[20..]).ToString(CultureInfo.InvariantCulture));
        attributes.AddProperty("loading", "lazy");
    }

    private static string WordsOf(HeadingBlock heading) => string.Concat(heading.Inline!.Descendants<LiteralInline>().Select(l => l.Content.ToString()));

    private static Stream? Open(string file) => typeof(GuideFiles).Assembly.GetManifestResourceStream(Folder + file);
}
