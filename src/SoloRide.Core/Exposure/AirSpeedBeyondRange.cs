namespace SoloRide.Exposure;

/// <summary>What to do with air speed above the 3 m/s that the heat strain standard covers.</summary>
public enum AirSpeedBeyondRange
{
    /// <summary>Count it as 3 m/s, with a finding: less cooling than real below skin temperature, so more strain and sweat than real.</summary>
    CountAsHighest,

    /// <summary>Use it as given, with a finding; the standard's corrections turn round above about 5 m/s.</summary>
    AsGiven,
}
