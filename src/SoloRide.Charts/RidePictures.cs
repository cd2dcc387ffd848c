using SoloRide.Daylight;
using SoloRide.Planning;

namespace SoloRide.Charts;

/// <summary>Pictures of a plan: all at once, or each alone.</summary>
/// <remarks>
/// <para>A picture shows what the plan says and nothing more; what is missing is written on it. Ranges are P10 to P90 unless the picture says otherwise.</para>
/// <para>Pure functions: same plan, same picture, on any thread and in any culture. Thread-safe. Planning aids, not guarantees.</para>
/// </remarks>
public static class RidePictures
{
    /// <summary>Every picture that a plan and the extras allow.</summary>
    /// <param name="plan">The plan.</param>
    /// <param name="extras">Terrain, starts and own rides; null for none.</param>
    /// <param name="options">Size and units; defaults when null.</param>
    /// <returns>The pictures, and those left out with the reason.</returns>
    /// <exception cref="ArgumentNullException">No plan.</exception>
    public static PictureSet Of(RidePlan plan, PictureExtras? extras = null, PictureOptions? options = null)
    {
        ArgumentNullException.ThrowIfNull(plan);
        extras ??= new PictureExtras();
        var pictures = new List<Picture>();
        var left = new List<PictureLeftOut>();
        bool planned = plan.Trace.Count > 1;
        const string refused = "the plan was refused and holds no times";
        Add("profile", planned, refused, () => Profile(plan, extras.Terrain, options));
        Add("map", true, "", () => Map(plan, options));
        Add("body", planned, refused, () => Body(plan, options));
        Add("charge", plan.PowerPlan is { Devices.Count: > 0 }, "no devices were given", () => Charge(plan, options));
        Add("starts", extras.Starts is { Outcomes.Count: > 1 }, "no sweep of at least two starts was given", () => Starts(extras.Starts!, plan.Zone, plan.Title, options));
        Add("daylight", true, "", () =>
        {
            GeoPoint start = plan.Route.Start;
            HorizonProfile? horizon = extras.Terrain is null ? null : HorizonProfile.Of(start, extras.Terrain);
            return Daylight("the start of " + plan.Title, start, plan.Zone, plan.Start.Year, horizon, plan, options);
        });
        Add("pace", extras.Rides is not null, "no own rides were given", () => Pace(extras.Rides!, options));
        return new PictureSet(pictures, left);

        void Add(string name, bool possible, string reason, Func<Picture> make)
        {
            if (possible)
            {
                pictures.Add(make());
            }
            else
            {
                left.Add(new PictureLeftOut(name, reason));
            }
        }
    }

    /// <summary>Heights, clock, water and way out over the distance: arrival with its range and the last time to pass, light, terrain shade, heat and thunder, water in hand, hours on foot to the nearest way out.</summary>
    /// <param name="plan">A plan that was not refused.</param>
    /// <param name="terrain">Heights of the ground, for terrain shade; null: not shown.</param>
    /// <param name="options">Size and units; defaults when null.</param>
    /// <returns>The picture.</returns>
    /// <exception cref="ArgumentNullException">No plan.</exception>
    /// <exception cref="ArgumentException">The plan was refused.</exception>
    public static Picture Profile(RidePlan plan, ITerrainHeights? terrain = null, PictureOptions? options = null)
        => ProfilePicture.Make(Planned(plan), terrain, options ?? PictureOptions.Default);

    /// <summary>The route from above: stretches by time on foot to the nearest way out, ways out, water and places.</summary>
    /// <param name="plan">A plan; of a refused one only the line.</param>
    /// <param name="options">Size and units; defaults when null.</param>
    /// <returns>The picture.</returns>
    /// <exception cref="ArgumentNullException">No plan.</exception>
    public static Picture Map(RidePlan plan, PictureOptions? options = null)
    {
        ArgumentNullException.ThrowIfNull(plan);
        return MapPicture.Make(plan, options ?? PictureOptions.Default);
    }

    /// <summary>Charge of every device over the ride and an unplanned night out.</summary>
    /// <param name="plan">A plan with devices.</param>
    /// <param name="options">Size and units; defaults when null.</param>
    /// <returns>The picture.</returns>
    /// <exception cref="ArgumentNullException">No plan.</exception>
    /// <exception cref="ArgumentException">The plan holds no devices.</exception>
    public static Picture Charge(RidePlan plan, PictureOptions? options = null)
    {
        ArgumentNullException.ThrowIfNull(plan);
        return plan.PowerPlan is { Devices.Count: > 0 } power
            ? ChargePicture.Make(plan, power, options ?? PictureOptions.Default)
            : throw new ArgumentException("The plan holds no devices: give some in the request.", nameof(plan));
    }

    /// <summary>What is in hand against each limit, over the time of the start.</summary>
    /// <param name="sweep">Outcomes of at least two starts.</param>
    /// <param name="zone">The ride's clock.</param>
    /// <param name="title">Name of the ride.</param>
    /// <param name="options">Size and units; defaults when null.</param>
    /// <returns>The picture.</returns>
    /// <exception cref="ArgumentNullException">No sweep or no zone.</exception>
    /// <exception cref="ArgumentException">Fewer than two starts.</exception>
    public static Picture Starts(StartSweep sweep, ZoneOffsets zone, string title = "", PictureOptions? options = null)
    {
        ArgumentNullException.ThrowIfNull(sweep);
        ArgumentNullException.ThrowIfNull(zone);
        return sweep.Outcomes.Count > 1
            ? StartsPicture.Make(sweep, zone, title ?? "", options ?? PictureOptions.Default)
            : throw new ArgumentException($"The sweep holds {sweep.Outcomes.Count} starts; a picture needs at least 2.", nameof(sweep));
    }

    /// <summary>Light phases over the days of a year and the hours of the day, with the shade of the terrain.</summary>
    /// <param name="name">Name of the place.</param>
    /// <param name="place">The place.</param>
    /// <param name="zone">The clock of the place.</param>
    /// <param name="year">[1950 to 2100]</param>
    /// <param name="horizon">Skyline of the place; null: shade is not shown.</param>
    /// <param name="ride">A ride to mark; null for none.</param>
    /// <param name="options">Size and units; defaults when null.</param>
    /// <returns>The picture.</returns>
    /// <exception cref="ArgumentNullException">No zone.</exception>
    /// <exception cref="ArgumentOutOfRangeException">The year lies outside its range.</exception>
    public static Picture Daylight(string name, GeoPoint place, ZoneOffsets zone, int year, HorizonProfile? horizon = null, RidePlan? ride = null, PictureOptions? options = null)
    {
        ArgumentNullException.ThrowIfNull(zone);
        return year is >= 1950 and <= 2100
            ? DaylightPicture.Make(string.IsNullOrWhiteSpace(name) ? "the place" : name, place, zone, year, horizon, ride, options ?? PictureOptions.Default)
            : throw new ArgumentOutOfRangeException(nameof(year), year, "year must lie between 1950 and 2100.");
    }

    /// <summary>Rectal temperature, heat of the day, sweat, drink and loss of body water over the clock of the ride.</summary>
    /// <param name="plan">A plan that was not refused.</param>
    /// <param name="options">Size and units; defaults when null.</param>
    /// <returns>The picture.</returns>
    /// <exception cref="ArgumentNullException">No plan.</exception>
    /// <exception cref="ArgumentException">The plan was refused.</exception>
    public static Picture Body(RidePlan plan, PictureOptions? options = null) => BodyPicture.Make(Planned(plan), options ?? PictureOptions.Default);

    /// <summary>Moving time of own legs against what was expected of them, before and after learning.</summary>
    /// <param name="rides">The legs and both models.</param>
    /// <param name="options">Size and units; defaults when null.</param>
    /// <returns>The picture.</returns>
    /// <exception cref="ArgumentNullException">No rides.</exception>
    public static Picture Pace(RideHistory rides, PictureOptions? options = null)
    {
        ArgumentNullException.ThrowIfNull(rides);
        return PacePicture.Make(rides, options ?? PictureOptions.Default);
    }

    private static RidePlan Planned(RidePlan plan)
    {
        ArgumentNullException.ThrowIfNull(plan);
        return plan.Trace.Count > 1 ? plan : throw new ArgumentException($"The plan '{plan.Title}' was refused and holds no times: give a route with heights, or a terrain.", nameof(plan));
    }
}
