using System.Globalization;
using System.Text;
using SoloRide.Routes;

namespace SoloRide.Accuracy;

/// <summary>
/// Byte mutations of valid route files: each gives a file or the documented exception, nothing else.
/// Run by hand: <c>--fuzz FOLDER COUNT SEED</c>; the folder holds the files to mutate.
/// </summary>
internal static class RouteFuzz
{
    public static int Run(string folder, int count, int seed)
    {
        byte[][] files = [.. Directory.GetFiles(folder).Order(StringComparer.Ordinal).Select(File.ReadAllBytes).Where(b => b.Length is > 0 and < 20_000)];
        var random = new Random(seed);
        int read = 0, refused = 0, other = 0;
        var kinds = new SortedDictionary<string, int>(StringComparer.Ordinal);
        for (int i = 0; i < count; i++)
        {
            // One in four is long text of mixed points, so that the short way of reading is under test too.
            byte[] bytes = random.Next(4) == 0 ? Encoding.UTF8.GetBytes(MixedGpx.Make(random.Next(), 80 + random.Next(120))) : [.. files[random.Next(files.Length)]];
            int flips = 1 + (random.Next(4) == 0 ? random.Next(8) : 0);
            for (int f = 0; f < flips; f++)
            {
                int at = random.Next(bytes.Length);
                switch (random.Next(4))
                {
                    case 0:
                        bytes[at] ^= (byte)(1 << random.Next(8));
                        break;
                    case 1:
                        bytes[at] = (byte)random.Next(256);
                        break;
                    case 2:
                        bytes = [.. bytes.AsSpan(0, at), .. bytes.AsSpan(Math.Min(bytes.Length, at + 1 + random.Next(16)))];
                        break;
                    default:
                        int from = random.Next(bytes.Length), length = Math.Min(1 + random.Next(16), bytes.Length - from);
                        bytes = [.. bytes.AsSpan(0, at), .. bytes.AsSpan(from, length), .. bytes.AsSpan(at)];
                        break;
                }

                if (bytes.Length == 0)
                {
                    break;
                }
            }

            try
            {
                RouteFile file = RouteFile.Read(new MemoryStream(bytes), "fuzz");
                if (i % 50 == 0 && file.Lines.Any(l => l.Points.Count > 0))
                {
                    // What was read must hold in the next steps too.
                    RideRoute route = file.ToRoute(LineChoice.Join);
                    _ = ElevationProfile.Of(route).Climbs();
                    _ = route.Clean().Route.ToGpx();
                }

                if (i % 8 == 0 && MixedGpx.Difference(bytes) is { } difference)
                {
                    throw new InvalidOperationException("read otherwise than by the XML reader alone: " + difference);
                }

                read++;
            }
            catch (InputFormatException)
            {
                refused++;
            }
#pragma warning disable CA1031 // Any other exception is what is looked for.
            catch (Exception e)
#pragma warning restore CA1031
            {
                other++;
                string kind = e.GetType().Name + ": " + e.Message.ReplaceLineEndings(" ");
                kinds[kind] = kinds.GetValueOrDefault(kind) + 1;
                if (kinds[kind] == 1 && kinds.Count <= 20)
                {
                    Console.Error.WriteLine(e);
                }
            }
        }

        Console.WriteLine(string.Create(CultureInfo.InvariantCulture, $"mutations {count}: read {read}, refused {refused}, other outcomes {other}"));
        return other == 0 ? 0 : 1;
    }
}
