using SoloRide.Internal;

namespace SoloRide.Effort;

/// <summary>One step at one form of the day: speed, mode of least time, power and metabolic cost.</summary>
internal static class StepKernel
{
    /// <summary>The mode of least time among riding (where it can be ridden), pushing and carrying.</summary>
    public static StepOutcome Choose(in StepPhysics s, double powerFactor, double capFactor)
    {
        StepOutcome ride = default;
        bool rides = s.RiddenFraction > 0;
        if (rides)
        {
            ride = Ride(s, powerFactor, capFactor);
            rides = ride.SpeedMps >= s.SlowestRideMps;
            if (rides && s.RiddenFraction >= 1 && ride.SpeedMps > Math.Max(s.PushMps, s.CarryMps))
            {
                return ride;
            }
        }

        StepOutcome foot = Fastest(s, powerFactor);
        return !rides || ride.TimeS >= foot.TimeS ? foot : Shared(s, ride, foot);
    }

    /// <summary>On the bike where it can be ridden; the share of a climb that the difficulty does not let be ridden is pushed or carried.</summary>
    public static StepOutcome Ridden(in StepPhysics s, double powerFactor, double capFactor)
    {
        StepOutcome ride = Ride(s, powerFactor, capFactor);
        return s.RiddenFraction >= 1 ? ride : Shared(s, ride, Fastest(s, powerFactor));
    }

    /// <summary>With the bike on foot, pushing or carrying, whichever is faster.</summary>
    private static StepOutcome Fastest(in StepPhysics s, double powerFactor)
    {
        StepOutcome foot = OnFoot(s, TravelMode.Push, powerFactor);
        if (s.CarryMps > foot.SpeedMps)
        {
            StepOutcome carry = OnFoot(s, TravelMode.Carry, powerFactor);
            foot = carry.TimeS < foot.TimeS ? carry : foot;
        }

        return foot;
    }

    private static StepOutcome Shared(in StepPhysics s, in StepOutcome ride, in StepOutcome foot)
    {
        double r = s.RiddenFraction;
        if (r >= 1)
        {
            return ride;
        }

        double time = (r * ride.TimeS) + ((1 - r) * foot.TimeS);
        double tr = time > 0 ? r * ride.TimeS / time : r, tf = 1 - tr;
        return new StepOutcome
        {
            Mode = r >= 0.5 ? ride.Mode : foot.Mode,
            TimeS = time,
            SpeedMps = s.TravelM > 0 ? s.TravelM / time : ride.SpeedMps,
            RideSpeedMps = ride.SpeedMps,
            PedalW = tr * ride.PedalW,
            AssistW = tr * ride.AssistW,
            BrakeW = tr * ride.BrakeW,
            MetabolicW = (tr * ride.MetabolicW) + (tf * foot.MetabolicW),
            RiddenFraction = r,
            FootShare = tf,
            CapLimited = ride.CapLimited,
        };
    }

    /// <summary>On the bike, pedalling where that helps; the cap is kept by the brakes.</summary>
    public static StepOutcome Ride(in StepPhysics s, double powerFactor, double capFactor)
    {
        double pedal = s.PedalW * powerFactor, wheel = (pedal * s.DriveEfficiency) + s.AssistW, cap = s.CapMps * capFactor;
        double v = RidePowerKernel.SpeedMps(s.A, s.B, s.C, wheel, s.HeadWindMps);
        double brake = 0, assist = s.AssistW;
        bool capped = v > cap;
        if (capped)
        {
            v = cap;
            double air = v + s.HeadWindMps, need = ((s.A * air * Math.Abs(air)) + (s.B * v) + s.C) * v;
            if (need <= 0)
            {
                brake = -need;
                pedal = 0;
                assist = 0;
            }
            else
            {
                double share = need / wheel;
                pedal *= share;
                assist *= share;
            }
        }

        double floor = Math.Min(s.RideFloorW, s.PedalW * powerFactor / s.GrossEfficiency);
        return new StepOutcome
        {
            Mode = pedal > 0 ? TravelMode.Ride : TravelMode.Coast,
            TimeS = s.TravelM / v,
            SpeedMps = v,
            RideSpeedMps = v,
            PedalW = pedal,
            AssistW = assist,
            BrakeW = brake,
            MetabolicW = Math.Max(pedal / s.GrossEfficiency, floor),
            RiddenFraction = 1,
            CapLimited = capped,
        };
    }

    /// <summary>Rolling without drive; a speed of 0 says that the bike does not roll by itself.</summary>
    public static StepOutcome Coast(in StepPhysics s, double capFactor)
    {
        double v = RidePowerKernel.SpeedMps(s.A, s.B, s.C, 0, s.HeadWindMps), cap = s.CapMps * capFactor, brake = 0;
        bool capped = v > cap;
        if (capped)
        {
            v = cap;
            double air = v + s.HeadWindMps;
            brake = Math.Max(0, -((s.A * air * Math.Abs(air)) + (s.B * v) + s.C) * v);
        }

        return new StepOutcome
        {
            Mode = TravelMode.Coast,
            TimeS = s.TravelM / v,
            SpeedMps = v,
            RideSpeedMps = v,
            BrakeW = brake,
            MetabolicW = Math.Min(s.RideFloorW, s.PedalW / s.GrossEfficiency),
            RiddenFraction = 1,
            CapLimited = capped,
        };
    }

    /// <summary>Speed on foot [m/s]: the lower of habitual pace and what the metabolic power gives.</summary>
    public static double OnFootMps(in StepPhysics s, TravelMode mode, double powerFactor)
    {
        (double habit, double load) = Foot(s, mode);
        return WalkCostKernel.SpeedMps(s.PedalW * powerFactor / s.GrossEfficiency / s.BodyKg, s.GradePercent, load, s.TerrainFactor, habit);
    }

    private static (double HabitMps, double LoadFactor) Foot(in StepPhysics s, TravelMode mode) => mode switch
    {
        TravelMode.Push => (s.PushMps, s.BikeLoadFactor),
        TravelMode.Carry => (s.CarryMps, s.BikeLoadFactor),
        _ => (s.WalkMps, s.OwnLoadFactor),
    };

    /// <summary>On foot at that speed.</summary>
    public static StepOutcome OnFoot(in StepPhysics s, TravelMode mode, double powerFactor)
    {
        double load = Foot(s, mode).LoadFactor, v = OnFootMps(s, mode, powerFactor);
        double cost = WalkCostKernel.OnFootWPerKg(v, s.GradePercent, load, s.TerrainFactor) * s.BodyKg;
        return new StepOutcome
        {
            Mode = mode,
            TimeS = s.TravelM / v,
            SpeedMps = v,
            MetabolicW = cost,
            FootShare = 1,
            Creeping = v <= WalkCostKernel.SlowestMps,
        };
    }
}
