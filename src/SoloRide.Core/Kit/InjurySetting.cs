namespace SoloRide.Kit;

/// <summary>Which published count of injuries.</summary>
public enum InjurySetting
{
    /// <summary>Members of mountain-bike clubs: the nearest to a lone ride.</summary>
    ClubRiding,

    /// <summary>A marathon event.</summary>
    MarathonEvent,

    /// <summary>Enduro racing.</summary>
    EnduroRacing,
}
