using System.Globalization;
using SoloRide.Internal;

namespace SoloRide.Routes;

/// <summary>The open trail tags as they come from a file, before they are joined to distances.</summary>
[Source("osm-trail-tags", "keys mtb:scale, mtb:scale:uphill, mtb:scale:imba, surface, smoothness, sac_scale")]
internal struct TrailTags
{
    private static readonly string[] Smoothness = ["excellent", "good", "intermediate", "bad", "very_bad", "horrible", "very_horrible", "impassable"];
    private static readonly string[] Hiking =
    [
        "strolling", "hiking", "mountain_hiking", "demanding_mountain_hiking", "alpine_hiking", "demanding_alpine_hiking", "difficult_alpine_hiking",
    ];

    public string? SurfaceTag;
    public TrailDifficulty? Difficulty;
    public int? Uphill;
    public int? Agency;
    public int? HikingLevel;
    public int? SmoothnessLevel;

    // What holds for a whole line of a network; no section carries it.
    public OneWayRule? OneWay;
    public OneWayRule? OneWayBicycle;
    public string? Bicycle;
    public string? Access;
    public string? Closed;
    public int? Layer;
    public bool Bridge;
    public bool Tunnel;
    public DateOnly? CheckDate;
    public DateOnly? OpeningDate;

    public readonly bool Any => SurfaceTag is not null || Difficulty is not null || Uphill is not null || Agency is not null || HikingLevel is not null || SmoothnessLevel is not null;

    public static bool IsKey(string key) => Key(key) is not null;

    /// <summary>Whether the tag makes a section of the trail.</summary>
    public static bool IsSectionKey(string key) => Key(key) is "surface" or "smoothness" or "sac_scale" or "mtb:scale" or "mtb:scale:uphill" or "mtb:scale:imba";

    /// <summary>Whether the tag holds for a whole line of a network.</summary>
    public static bool IsLineKey(string key) => IsKey(key) && !IsSectionKey(key);

    /// <summary>Takes one tag; false when the key is known and the value is not understood.</summary>
    public bool TryTake(string key, string value)
    {
        value = value.Trim();
        switch (Key(key))
        {
            case "surface":
                SurfaceTag = value;
                return value.Length > 0;
            case "mtb:scale":
                Difficulty = Level(value, 6) is { } d ? (TrailDifficulty)d : null;
                return Difficulty is not null;
            case "mtb:scale:uphill":
                Uphill = Level(value, 5);
                return Uphill is not null;
            case "mtb:scale:imba":
                Agency = Level(value, 4);
                return Agency is not null;
            case "sac_scale":
                HikingLevel = Word(Hiking, value);
                return HikingLevel is not null;
            case "smoothness":
                SmoothnessLevel = Word(Smoothness, value);
                return SmoothnessLevel is not null;
            case "oneway":
                OneWay = Direction(value);
                return OneWay is not null;
            case "oneway:bicycle":
                OneWayBicycle = Direction(value);
                return OneWayBicycle is not null;
            case "bicycle":
                Bicycle = value.ToLowerInvariant();
                return value.Length > 0;
            case "access":
                Access = value.ToLowerInvariant();
                return value.Length > 0;
            case "closed":
                Closed = value;
                return value.Length > 0;
            case "layer":
                Layer = int.TryParse(value, NumberStyles.AllowLeadingSign, CultureInfo.InvariantCulture, out int layer) && Math.Abs(layer) <= 5 ? layer : null;
                return Layer is not null;
            case "bridge":
                Bridge = !value.Equals("no", StringComparison.OrdinalIgnoreCase);
                return true;
            case "tunnel":
                Tunnel = !value.Equals("no", StringComparison.OrdinalIgnoreCase);
                return true;
            case "check_date":
                CheckDate = Day(value);
                return CheckDate is not null;
            case "opening_date":
                OpeningDate = Day(value);
                return OpeningDate is not null;
            default:
                return true;
        }
    }

    /// <summary>The line of a network with what the tags say of it.</summary>
    [Source("osm-trail-tags", "keys oneway, oneway:bicycle, bicycle, access, layer, bridge, tunnel, check_date, opening_date")]
    public readonly TrailLine Describe(TrailLine line)
    {
        bool allowed = Bicycle is "yes" or "designated" or "permissive";
        bool shut = Access is "no" or "private" or "permit" or "military" or "agricultural" or "forestry" or "emergency" && !allowed;
        string? reason = Closed is { } c && !c.Equals("no", StringComparison.OrdinalIgnoreCase) ? c.Equals("yes", StringComparison.OrdinalIgnoreCase) ? "closed" : c
            : shut ? "access " + Access : null;
        return line with
        {
            OneWay = OneWayBicycle ?? OneWay ?? OneWayRule.None,
            Bicycles = Bicycle is "no" or "dismount" or "private" or "permit" or "use_sidepath" ? Known.No : allowed ? Known.Yes : Known.Unknown,
            Layer = Layer ?? (Bridge ? 1 : Tunnel ? -1 : 0),
            Closure = reason is null ? null : new TrailClosure { Reason = reason, InformationDate = CheckDate, OpensOn = OpeningDate },
        };
    }

    public readonly RouteSection ToSection(double fromM, double toM)
        => new(UnitsNet.Length.FromMeters(fromM), UnitsNet.Length.FromMeters(toM))
        {
            SurfaceTag = SurfaceTag ?? "",
            Surface = Surface(SurfaceTag),
            Difficulty = Difficulty ?? TrailDifficulty.Unknown,
            UphillLevel = Uphill,
            AgencyLevel = Agency,
            HikingLevel = HikingLevel,
            SmoothnessLevel = SmoothnessLevel,
        };

    /// <summary>The class of a surface tag; unknown words are <see cref="TrailSurface.Unknown"/>.</summary>
    public static TrailSurface Surface(string? tag) => (tag ?? "").Trim().ToLowerInvariant() switch
    {
        "paved" or "asphalt" or "concrete" or "concrete:plates" or "concrete:lanes" or "paving_stones" or "sett" or "chipseal" or "metal" or "wood" => TrailSurface.Paved,
        "compacted" or "fine_gravel" or "gravel" => TrailSurface.Gravel,
        "ground" or "dirt" or "earth" or "clay" or "firm" or "unpaved" => TrailSurface.Firm,
        "grass" or "woodchips" or "grass_paver" => TrailSurface.Grass,
        "pebblestone" or "scree" or "shingle" or "loose" => TrailSurface.Loose,
        "rock" or "rocks" or "stone" or "boulders" or "bare_rock" or "stepping_stones" or "unhewn_cobblestone" or "cobblestone" => TrailSurface.Rock,
        "roots" => TrailSurface.Roots,
        "sand" => TrailSurface.Sand,
        "mud" or "bog" => TrailSurface.Mud,
        "snow" or "ice" => TrailSurface.Snow,
        _ => TrailSurface.Unknown,
    };

    public static string? SurfaceWord(TrailSurface surface) => surface switch
    {
        TrailSurface.Paved => "paved",
        TrailSurface.Gravel => "gravel",
        TrailSurface.Firm => "ground",
        TrailSurface.Grass => "grass",
        TrailSurface.Loose => "scree",
        TrailSurface.Rock => "rock",
        TrailSurface.Roots => "roots",
        TrailSurface.Sand => "sand",
        TrailSurface.Mud => "mud",
        TrailSurface.Snow => "snow",
        _ => null,
    };

    /// <summary>The tags of a section as key and value, keys in the form with underscores when <paramref name="forXml"/>.</summary>
    public static IEnumerable<(string Key, string Value)> Write(RouteSection s, bool forXml)
    {
        string colon = forXml ? "_" : ":";
        if ((s.SurfaceTag.Length > 0 ? s.SurfaceTag : SurfaceWord(s.Surface)) is { } surface)
        {
            yield return ("surface", surface);
        }

        if (s.Difficulty != TrailDifficulty.Unknown)
        {
            yield return ($"mtb{colon}scale", ((int)s.Difficulty).ToString(CultureInfo.InvariantCulture));
        }

        if (s.UphillLevel is { } up)
        {
            yield return ($"mtb{colon}scale{colon}uphill", up.ToString(CultureInfo.InvariantCulture));
        }

        if (s.AgencyLevel is { } agency)
        {
            yield return ($"mtb{colon}scale{colon}imba", agency.ToString(CultureInfo.InvariantCulture));
        }

        if (s.HikingLevel is { } hiking)
        {
            yield return ("sac_scale", Hiking[hiking]);
        }

        if (s.SmoothnessLevel is { } smooth)
        {
            yield return ("smoothness", Smoothness[smooth]);
        }
    }

    private static string? Key(string key) => key switch
    {
        "surface" or "smoothness" or "sac_scale" or "mtb:scale" or "mtb:scale:uphill" or "mtb:scale:imba" => key,
        "oneway" or "oneway:bicycle" or "bicycle" or "access" or "closed" or "layer" or "bridge" or "tunnel" or "check_date" or "opening_date" => key,
        "oneway_bicycle" => "oneway:bicycle",
        "mtb_scale" => "mtb:scale",
        "mtb_scale_uphill" => "mtb:scale:uphill",
        "mtb_scale_imba" => "mtb:scale:imba",
        _ => null,
    };

    private static OneWayRule? Direction(string value) => value.ToLowerInvariant() switch
    {
        "yes" or "true" or "1" => OneWayRule.Forward,
        "-1" or "reverse" => OneWayRule.Backward,
        "no" or "false" or "0" => OneWayRule.None,
        _ => null,
    };

    private static DateOnly? Day(string value)
        => DateOnly.TryParseExact(value, "yyyy-MM-dd", CultureInfo.InvariantCulture, DateTimeStyles.None, out DateOnly d) ? d : null;

    // A trailing + or - refines a level and is dropped.
    private static int? Level(string value, int highest)
        => int.TryParse(value.TrimEnd('+', '-'), NumberStyles.None, CultureInfo.InvariantCulture, out int v) && v <= highest ? v : null;

    private static int? Word(string[] words, string value)
        => Array.FindIndex(words, w => w.Equals(value, StringComparison.OrdinalIgnoreCase)) is >= 0 and var i ? i : null;
}
