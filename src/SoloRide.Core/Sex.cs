namespace SoloRide;

/// <summary>Sex as the published equations distinguish it.</summary>
public enum Sex
{
    /// <summary>Not stated; the mean of both equations is used, with the wider spread.</summary>
    Unstated,

    /// <summary>Female equations.</summary>
    Female,

    /// <summary>Male equations.</summary>
    Male,
}
