using UnitsNet;

namespace SoloRide.Batteries;

/// <summary>Whether a printed runtime can be had from the pack at the printed output.</summary>
/// <param name="AtPrintedOutput">Time that the pack's energy lasts at the printed output, with an assumed 100 lm/W (70 to 150) or the measured draw.</param>
/// <param name="LongestBelieved">Time that it would last at 200 lm/W, which no trail lamp reaches as a whole.</param>
/// <param name="Verdict">What follows for the printed runtime.</param>
public sealed record RuntimeCheck(Estimate<TimeSpan> AtPrintedOutput, TimeSpan LongestBelieved, RuntimeVerdict Verdict);
