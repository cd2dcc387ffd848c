namespace SoloRide.Escape;

/// <summary>What is done where the route meets itself.</summary>
public enum RouteCrossings
{
    /// <summary>Its parts are joined where they come within the tolerance and their heights agree, except at the bridges named; a finding says where.</summary>
    JoinAtGrade,

    /// <summary>Nothing is joined: every crossing is taken for a bridge. A way out over one is found only when it is given as a trail.</summary>
    KeepApart,
}
