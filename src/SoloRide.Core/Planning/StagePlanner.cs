using SoloRide.Internal;
using UnitsNet;

namespace SoloRide.Planning;

/// <summary>
/// Splits a long ride into days at candidate camps so that the largest day is as small as it can be, proved by dynamic programming over all splits.
/// Among splits with the same largest day the one with the smaller sum of squares is taken, then the one with earlier camps.
/// </summary>
[Entry(NoOutsideCheck = "an optimum proved against exhaustive search over the same camps")]
public static class StagePlanner
{
    /// <summary>Splits a ride.</summary>
    /// <param name="total">Length of the route, above 0.</param>
    /// <param name="days">[1 to 30] How many days.</param>
    /// <param name="camps">Candidates on the route. Camps where camping is known to be forbidden are left out.</param>
    /// <param name="effortBetween">Time on the way between two distances at the typical pace; must not be negative.</param>
    /// <param name="waterNeeded">Whether a camp known to be without water is left out; a camp of which nothing is known stays, with a finding.</param>
    /// <returns>The split, or an empty one with the reason.</returns>
    /// <exception cref="ArgumentException">A camp lies beyond the end, or two camps share a name.</exception>
    /// <exception cref="ArgumentOutOfRangeException">Days outside 1 to 30, or total not positive, or a negative effort.</exception>
    public static StagePlan Split(Length total, int days, IReadOnlyList<Camp> camps, Func<Length, Length, TimeSpan> effortBetween, bool waterNeeded = true)
    {
        double totalM = Guard.Positive(total.Meters, "m", nameof(total));
        Guard.InRange(days, 1, 30, "days");
        Guard.NotNull(camps);
        Guard.NotNull(effortBetween);
        var findings = new List<Finding>();
        var names = new HashSet<string>(StringComparer.Ordinal);
        var usable = new List<Camp>();
        foreach (Camp camp in camps.OrderBy(c => c.AlongRoute.Meters).ThenBy(c => c.Name, StringComparer.Ordinal))
        {
            if (camp.AlongRoute.Meters >= totalM)
            {
                throw new ArgumentException($"Camp '{camp.Name}' at km {Text.F(camp.AlongRoute.Kilometers, 1)} lies at or beyond the end of the route, km {Text.F(total.Kilometers, 1)}.", nameof(camps));
            }

            if (!names.Add(camp.Name))
            {
                throw new ArgumentException($"Two camps are named '{camp.Name}'.", nameof(camps));
            }

            if (camp.Allowed == Known.No)
            {
                findings.Add(new Finding(PlanningFindingCodes.CampLeftOut, FindingSeverity.Note, camp.Name, "Left out: camping is not allowed there."));
            }
            else if (waterNeeded && camp.Water == Known.No)
            {
                findings.Add(new Finding(PlanningFindingCodes.CampLeftOut, FindingSeverity.Note, camp.Name, "Left out: no water there."));
            }
            else
            {
                usable.Add(camp);
            }
        }

        int n = usable.Count;
        int nights = days - 1;
        if (nights > n)
        {
            findings.Add(new Finding(PlanningFindingCodes.NoSplit, FindingSeverity.Refusal, "camps", $"{nights} nights need as many camps; {n} can be used."));
            return new StagePlan([], TimeSpan.Zero, findings);
        }

        // Nodes 0 (start), 1..n (camps), n + 1 (end).
        var at = new double[n + 2];
        for (int i = 0; i < n; i++)
        {
            at[i + 1] = usable[i].AlongRoute.Meters;
        }

        at[n + 1] = totalM;
        var effort = new long[n + 2, n + 2];
        for (int i = 0; i <= n; i++)
        {
            for (int j = i + 1; j <= n + 1; j++)
            {
                TimeSpan e = effortBetween(Length.FromMeters(at[i]), Length.FromMeters(at[j]));
                effort[i, j] = e >= TimeSpan.Zero ? e.Ticks : throw new ArgumentOutOfRangeException(nameof(effortBetween), e, "An effort between two places must not be negative.");
            }
        }

        // best[d, j]: smallest possible largest day when j is reached at the end of day d; then smallest sum of squares.
        var largest = new long[days + 1, n + 2];
        var squares = new double[days + 1, n + 2];
        var from = new int[days + 1, n + 2];
        for (int d = 0; d <= days; d++)
        {
            for (int j = 0; j <= n + 1; j++)
            {
                largest[d, j] = long.MaxValue;
            }
        }

        largest[0, 0] = 0;
        for (int d = 1; d <= days; d++)
        {
            for (int j = 1; j <= n + 1; j++)
            {
                if ((j == n + 1) != (d == days))
                {
                    continue;
                }

                for (int i = 0; i < j; i++)
                {
                    if (largest[d - 1, i] == long.MaxValue || (d > 1 && i == 0))
                    {
                        continue;
                    }

                    long m = Math.Max(largest[d - 1, i], effort[i, j]);
                    double hours = (double)effort[i, j] / TimeSpan.TicksPerHour;
                    double q = squares[d - 1, i] + (hours * hours);
                    if (m < largest[d, j] || (m == largest[d, j] && q < squares[d, j]))
                    {
                        largest[d, j] = m;
                        squares[d, j] = q;
                        from[d, j] = i;
                    }
                }
            }
        }

        if (largest[days, n + 1] == long.MaxValue)
        {
            findings.Add(new Finding(PlanningFindingCodes.NoSplit, FindingSeverity.Refusal, "camps", $"No split into {days} days exists over the usable camps."));
            return new StagePlan([], TimeSpan.Zero, findings);
        }

        var stages = new Stage[days];
        int node = n + 1;
        for (int d = days; d >= 1; d--)
        {
            int i = from[d, node];
            stages[d - 1] = new Stage(Length.FromMeters(at[i]), Length.FromMeters(at[node]), node <= n ? usable[node - 1] : null, TimeSpan.FromTicks(effort[i, node]));
            node = i;
        }

        foreach (Stage s in stages)
        {
            if (s.Camp is { } c && (c.Water == Known.Unknown || c.Allowed == Known.Unknown))
            {
                string what = c.Water == Known.Unknown && c.Allowed == Known.Unknown ? "water and permission" : c.Water == Known.Unknown ? "water" : "permission";
                findings.Add(new Finding(PlanningFindingCodes.CampUnknown, FindingSeverity.Caution, c.Name, $"Not known at this camp: {what}. Check before riding."));
            }
        }

        return new StagePlan(stages, TimeSpan.FromTicks(largest[days, n + 1]), findings);
    }
}
