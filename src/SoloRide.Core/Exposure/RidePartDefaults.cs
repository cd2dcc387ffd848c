using SoloRide.Internal;

namespace SoloRide.Exposure;

/// <summary>Heat made and speed by kind of part where the caller does not say; assumptions.</summary>
[Source("assumption-ride-parts")]
internal static class RidePartDefaults
{
    public static double HeatMadeWm2(RidePartKind kind) => kind switch
    {
        RidePartKind.Climb => 260,
        RidePartKind.Rolling => 200,
        RidePartKind.Descent => 140,
        RidePartKind.Push => 190,
        RidePartKind.Stop => 75,
        RidePartKind.Wait => 58.2,
        _ => 46.5,
    };

    public static double RidingMps(RidePartKind kind) => kind switch
    {
        RidePartKind.Climb => 2,
        RidePartKind.Rolling => 4,
        RidePartKind.Descent => 7,
        RidePartKind.Push => 1,
        _ => 0,
    };
}
