using SoloRide.Internal;

namespace SoloRide.Batteries;

/// <summary>Plans the charge of all devices over a ride and a night out.</summary>
/// <remarks>
/// Deterministic: the same request gives the same plan on any machine, thread count and culture. Static and pure; safe to call from any thread.
/// Validity: cell temperatures from -20 to 45 °C for lithium-ion (measured cells); other chemistries rest on assumptions or your own table and say so.
/// </remarks>
[Entry(NoOutsideCheck = "No published ride plan with measured outcomes was found; its parts are checked against measured cells and independent tables.")]
public static class PowerPlanner
{
    /// <summary>Makes the plan.</summary>
    /// <param name="request">Devices, bank, timeline.</param>
    /// <param name="cancellation">Stops a long run.</param>
    /// <returns>The plan. Flat devices, a short bank, no way to call are results with findings, never errors.</returns>
    /// <exception cref="ArgumentException">A stretch names an unknown device or mode, or a way of reaching others an unknown device.</exception>
    /// <exception cref="OperationCanceledException">Cancellation was asked for.</exception>
    public static PowerPlan Plan(PowerRequest request, CancellationToken cancellation = default)
    {
        Guard.NotNull(request);
        return new PowerPlanning(request, cancellation).Make();
    }
}
