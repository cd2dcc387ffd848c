using UnitsNet;

namespace SoloRide.Planning;

/// <summary>One checkpoint of an event.</summary>
/// <param name="Name">Name.</param>
/// <param name="AlongRoute">From the start of the route.</param>
/// <param name="FirstRider">When the first rider may come: the fast quantile of the first wave.</param>
/// <param name="ByWave">Cut-off of each wave: its start and the slow quantile of the time to here.</param>
/// <param name="Release">When the people here may go: the last cut-off is past and everybody who started is accounted for.</param>
public sealed record EventCutOff(string Name, Length AlongRoute, DateTimeOffset FirstRider, IReadOnlyList<(string Wave, DateTimeOffset CutOff)> ByWave, DateTimeOffset Release);
