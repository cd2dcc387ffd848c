using SoloRide.Exposure;
using UnitsNet;

namespace SoloRide.Planning;

/// <summary>Cold, wind and wet at one station, at the typical arrival.</summary>
/// <param name="Name">Station.</param>
/// <param name="AlongRoute">From the start.</param>
/// <param name="AirTemperature">Air.</param>
/// <param name="Wind">Wind.</param>
/// <param name="Wetness">Wet from the rain since the start: damp from 0.2 mm, wet from 1 mm; unknown rain counts as damp.</param>
/// <param name="StandingLimit">How long standing still can be borne in what is worn; null: no limit within the method.</param>
/// <param name="Class">Its class.</param>
public sealed record ColdWetPoint(string Name, Length AlongRoute, Temperature AirTemperature, Speed Wind, Wetness Wetness, TimeSpan? StandingLimit, ColdWetClass Class);
