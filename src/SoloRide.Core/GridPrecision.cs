namespace SoloRide;

/// <summary>Side of the square that a grid reference names; the value is the number of digits for each direction.</summary>
public enum GridPrecision
{
    /// <summary>100 km, letters only.</summary>
    HundredKilometres,

    /// <summary>10 km, 1 + 1 digits.</summary>
    TenKilometres,

    /// <summary>1 km, 2 + 2 digits.</summary>
    OneKilometre,

    /// <summary>100 m, 3 + 3 digits.</summary>
    HundredMetres,

    /// <summary>10 m, 4 + 4 digits: what a message to rescuers carries.</summary>
    TenMetres,

    /// <summary>1 m, 5 + 5 digits.</summary>
    OneMetre,
}
