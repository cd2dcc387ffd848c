namespace SoloRide.Routes;

/// <summary>A stretch of a smoothed profile, in or against its direction: length and ascent of what is built of pieces add up by construction.</summary>
internal readonly record struct ProfilePiece(ElevationProfile Profile, double FromM, double ToM, bool Backward)
{
    public double LengthM => ToM - FromM;

    public bool HasHeights => Profile.HasHeights;

    /// <summary>The piece travelled the other way.</summary>
    public ProfilePiece Reversed() => this with { Backward = !Backward };

    /// <summary>Part of the piece, by distance in the direction of travel.</summary>
    public ProfilePiece Part(double fromM, double toM)
        => Backward ? new(Profile, ToM - toM, ToM - fromM, true) : new(Profile, FromM + fromM, FromM + toM, false);

    /// <summary>Sum of rises and of falls in the direction of travel.</summary>
    public (double UpM, double DownM) Climbing()
    {
        if (!HasHeights || !(ToM > FromM))
        {
            return (0, 0);
        }

        StretchStatistics s = Profile.Between(UnitsNet.Length.FromMeters(FromM), UnitsNet.Length.FromMeters(ToM));
        return Backward ? (s.Descent.Meters, s.Ascent.Meters) : (s.Ascent.Meters, s.Descent.Meters);
    }

    /// <summary>Smoothed height at a distance in the direction of travel; NaN without heights.</summary>
    public double HeightM(double alongM) => HasHeights ? Profile.HeightM(Backward ? ToM - alongM : FromM + alongM) : double.NaN;

    /// <summary>The places of the piece as a route of its own.</summary>
    public RideRoute Route()
    {
        RideRoute whole = Profile.Route;
        RideRoute part = FromM <= 0 && ToM >= whole.LengthM ? whole : whole.Part(UnitsNet.Length.FromMeters(FromM), UnitsNet.Length.FromMeters(Math.Min(ToM, whole.LengthM)));
        return Backward ? part.Reversed() : part;
    }
}
