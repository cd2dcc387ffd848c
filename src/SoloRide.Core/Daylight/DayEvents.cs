using System.Runtime.CompilerServices;

namespace SoloRide.Daylight;

/// <summary>Four values, one a threshold: rise and set, civil, nautical, astronomical.</summary>
[InlineArray(4)]
internal struct Quad
{
    private double _first;
}

/// <summary>Where the Sun stands to a threshold over a window.</summary>
internal enum CrossingState
{
    Crosses,
    AlwaysAbove,
    AlwaysBelow,
}

/// <summary>What <see cref="SunEventsKernel"/> finds in a window; times are days from its start, NaN where there is none.</summary>
internal struct DayEvents
{
    public Quad Up, SecondUp, ThirdUp, Down, SecondDown, ThirdDown;
    public CrossingState State0, State1, State2, State3;
    public double Transit, SecondTransit, ThirdTransit;
    public double TransitAltitudeRad;
    public double HighestSin, LowestSin;

    /// <summary>Whether anything happens more than once.</summary>
    public readonly bool AnySecond
    {
        get
        {
            bool any = !double.IsNaN(SecondTransit);
            for (int k = 0; k < 4; k++)
            {
                any |= !double.IsNaN(SecondUp[k]) || !double.IsNaN(SecondDown[k]);
            }

            return any;
        }
    }

    public readonly CrossingState State(int i) => i switch { 0 => State0, 1 => State1, 2 => State2, _ => State3 };
}
