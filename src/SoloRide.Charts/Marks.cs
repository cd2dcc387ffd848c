namespace SoloRide.Charts;

/// <summary>Round numbers and round times for axes.</summary>
internal static class Marks
{
    private static readonly double[] ClockStepsMin = [5, 10, 15, 30, 60, 120, 180, 360, 720, 1440, 2880, 10080];

    /// <summary>Multiples of 1, 2 or 5 times a power of ten, at most about a wanted count.</summary>
    public static List<(double At, string Text)> Round(double from, double to, int about)
    {
        double step = Step(to - from, about);
        int decimals = Math.Max(0, -(int)Math.Floor(Math.Log10(step) + 1e-9));
        var marks = new List<(double, string)>();
        for (double k = Math.Ceiling((from / step) - 1e-9); k * step <= to + (step * 1e-9); k++)
        {
            marks.Add((k * step, Words.Number(k * step, decimals)));
        }

        return marks;
    }

    public static double Step(double span, int about)
    {
        double raw = Math.Max(1e-12, span) / Math.Max(1, about);
        double power = Math.Pow(10, Math.Floor(Math.Log10(raw)));
        double x = raw / power;
        return power * (x <= 1 ? 1 : x <= 2 ? 2 : x <= 5 ? 5 : 10);
    }

    /// <summary>Full clock times between two instants, as hours after a zero.</summary>
    public static List<(double At, string Text)> Clock(DateTimeOffset zero, ZoneOffsets zone, double fromH, double toH, int about)
    {
        double wanted = (toH - fromH) * 60 / Math.Max(1, about);
        double step = ClockStepsMin.FirstOrDefault(s => s >= wanted - 1e-9, ClockStepsMin[^1]);
        DateTimeOffset first = zone.ToLocal(zero.AddHours(fromH));
        var marks = new List<(double, string)>();
        var midnight = new DateTime(first.Year, first.Month, first.Day, 0, 0, 0, DateTimeKind.Unspecified);
        bool days = toH - fromH > 24 || first.Date != zone.ToLocal(zero.AddHours(toH)).Date;
        double k = Math.Ceiling((first.DateTime - midnight).TotalMinutes / step - 1e-9);
        for (; ; k++)
        {
            DateTime local = midnight.AddMinutes(k * step);

            // The offset of the instant itself decides, so that a change of the clock on the way is not lost.
            var guess = new DateTimeOffset(local, first.Offset);
            DateTimeOffset at = guess.AddMinutes(first.Offset.TotalMinutes - zone.ToLocal(guess).Offset.TotalMinutes);
            double h = (at - zero).TotalHours;
            if (h > toH + 1e-9)
            {
                return marks;
            }

            if (h >= fromH - 1e-9)
            {
                bool newDay = days && local.TimeOfDay == TimeSpan.Zero;
                marks.Add((h, newDay ? Words.DayOfMonth(local) : Words.Clock(local)));
            }
        }
    }
}
