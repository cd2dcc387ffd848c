namespace SoloRide.Contact;

/// <summary>A way to call.</summary>
public enum MeansKind
{
    /// <summary>Mobile telephone: works with signal only.</summary>
    Telephone,

    /// <summary>Satellite messenger: needs open sky, charge and a subscription; answers can come back.</summary>
    SatelliteMessenger,

    /// <summary>406 MHz distress beacon: needs open sky; works alone, without subscription; no answer comes back.</summary>
    DistressBeacon,

    /// <summary>Two-way radio: needs somebody who listens in reach.</summary>
    Radio,
}
