namespace SoloRide.Escape;

/// <summary>The time out along one piece of the route: the smaller of going back and going on, each linear along the piece.</summary>
internal static class ProfileKernel
{
    /// <summary>[s] Time out at a share of the piece.</summary>
    public static double TimeS(double outUS, double outVS, double onS, double backS, double y)
        => Math.Min(BackS(outUS, backS, y), OnwardS(outVS, onS, y));

    /// <summary>[s] Time out by going back.</summary>
    public static double BackS(double outUS, double backS, double y) => outUS + (y > 0 ? y * backS : 0);

    /// <summary>[s] Time out by going on.</summary>
    public static double OnwardS(double outVS, double onS, double y) => outVS + (y < 1 ? (1 - y) * onS : 0);

    /// <summary>The share of the piece where the time out is above a limit, as an interval; empty when low is not below high.</summary>
    /// <param name="outUS">[s] Time out from the beginning.</param>
    /// <param name="outVS">[s] Time out from the end.</param>
    /// <param name="onS">[s] Time over the piece in the direction of the route.</param>
    /// <param name="backS">[s] Time over it against the direction.</param>
    /// <param name="limitS">[s] The limit.</param>
    /// <returns>Shares of the piece.</returns>
    public static (double Low, double High) Above(double outUS, double outVS, double onS, double backS, double limitS)
    {
        // Back is at most the limit up to this share; on from that share.
        double back = outUS > limitS ? 0 : backS > 0 ? (limitS - outUS) / backS : 1;
        double on = outVS > limitS ? 1 : onS > 0 ? 1 - ((limitS - outVS) / onS) : 0;
        return (Math.Clamp(back, 0, 1), Math.Clamp(on, 0, 1));
    }
}
