namespace SoloRide.Routes;

/// <summary>A stretch of a trail in the direction of travel; distances are along the trail's line.</summary>
internal readonly record struct WayPart(NetworkTrail Trail, double FromM, double ToM, bool Backward)
{
    public double LengthM => ToM - FromM;

    public RideRoute Route() => Trail.Part(FromM, ToM, Backward);

    public (double UpM, double DownM) Climbing()
    {
        (double up, double down) = FromM <= 0 && ToM >= Trail.LengthM ? (Trail.UpM, Trail.DownM) : Trail.Climbing(FromM, ToM);
        return Backward ? (down, up) : (up, down);
    }

    public GeoPoint Start => Trail.Line.PointAt(UnitsNet.Length.FromMeters(Backward ? Math.Min(ToM, Trail.LengthM) : FromM));
}
