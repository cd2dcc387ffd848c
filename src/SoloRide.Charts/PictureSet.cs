using System.Text;

namespace SoloRide.Charts;

/// <summary>The pictures that a plan and what was given with it allow.</summary>
/// <remarks>Immutable; safe to share.</remarks>
[TypeFormatterSource(typeof(PictureFormatters), PreferredMimeTypes = ["text/html"])]
public sealed class PictureSet
{
    internal PictureSet(IReadOnlyList<Picture> pictures, IReadOnlyList<PictureLeftOut> leftOut)
    {
        Pictures = pictures;
        LeftOut = leftOut;
    }

    /// <summary>The pictures, in the order of reading.</summary>
    public IReadOnlyList<Picture> Pictures { get; }

    /// <summary>Pictures that could not be made, with what is missing.</summary>
    public IReadOnlyList<PictureLeftOut> LeftOut { get; }

    /// <summary>A picture by its name; null when the set has none of that name.</summary>
    /// <param name="name">Such as <c>profile</c>.</param>
    /// <returns>The picture.</returns>
    public Picture? Find(string name) => Pictures.FirstOrDefault(p => p.Name == name);

    /// <summary>Writes every picture as PNG and SVG, and its text alternative as text, into a folder that is made where it is missing.</summary>
    /// <param name="folder">The folder.</param>
    /// <returns>The files written.</returns>
    /// <exception cref="ArgumentException">No folder is named.</exception>
    /// <exception cref="IOException">A file cannot be written.</exception>
    public IReadOnlyList<string> Save(string folder)
    {
        ArgumentException.ThrowIfNullOrWhiteSpace(folder);
        var files = new List<(string Path, byte[] Bytes)>();
        foreach (Picture p in Pictures)
        {
            files.Add((Path.Combine(folder, p.Name + ".png"), p.ToPng()));
            files.Add((Path.Combine(folder, p.Name + ".svg"), Encoding.UTF8.GetBytes(p.ToSvg())));
            files.Add((Path.Combine(folder, p.Name + ".txt"), Encoding.UTF8.GetBytes(p.TextAlternative + "\n")));
        }

        // Everything is drawn before the first file is touched.
        Directory.CreateDirectory(folder);
        foreach ((string path, byte[] bytes) in files)
        {
            File.WriteAllBytes(path, bytes);
        }

        return [.. files.Select(f => f.Path)];
    }

    /// <summary>All figures one below the other.</summary>
    /// <returns>HTML.</returns>
    public string ToHtml() => string.Concat(Pictures.Select(p => p.ToHtml()));
}
