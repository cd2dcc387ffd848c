using SoloRide.Exposure;
using SoloRide.Internal;

namespace SoloRide.Planning;

/// <summary>Predicted heat strain carried along one course of the ride, minute by minute, from where the minute before ended.</summary>
internal sealed class HeatAlong
{
    private readonly RideModel _model;
    private readonly double _massKg;
    private readonly double _heightM;
    private readonly double _areaM2;
    private readonly bool _acclimatised;
    private readonly double _clo;

    public HeatAlong(RideModel model)
    {
        _model = model;
        Rider rider = model.Request.Rider;
        _massKg = Si.Kg(rider.Mass) is var kg && double.IsNaN(kg) ? HeatStrainConstants.StandardMassKg : kg;
        _heightM = Si.M(rider.Height) is var m && double.IsNaN(m) ? HeatStrainConstants.StandardHeightM : m;
        _areaM2 = HeatStrainKernel.BodyAreaM2(_massKg, _heightM);
        _acclimatised = rider.HeatAcclimatised == Known.Yes;
        _clo = model.Request.Options.ClothingClo;
    }

    /// <summary>Runs the body along a course.</summary>
    /// <param name="course">Clock and energy at the end of each section.</param>
    /// <param name="warmerSd">Error of the air temperature [standard deviations].</param>
    /// <param name="rectalC">Empty, or receives the rectal temperature at the end of each section [deg C].</param>
    /// <param name="highestC">Receives the highest rectal temperature [deg C].</param>
    /// <param name="highestSec">Receives when [s after start].</param>
    /// <param name="limitSec">Receives when 38 deg C is first reached [s after start]; NaN when it is not.</param>
    public void Run(SectionTrace course, double warmerSd, Span<double> rectalC, out double highestC, out double highestSec, out double limitSec)
    {
        var body = HeatStrainStepper.Rested;
        highestC = body.RectalC;
        highestSec = 0;
        limitSec = double.NaN;
        double doneSec = 0, fromSec = 0, fromJ = 0;
        SimulationInput input = _model.Input;
        for (int j = 0; j < course.ClockSec.Length; j++)
        {
            // A minute belongs to the section that its middle lies in; standing at a station counts with the section after it.
            double toSec = course.ClockSec[j], toJ = course.Joules[j];
            int minutes = (int)Math.Ceiling(((toSec - doneSec) / 60) - 0.5);
            if (minutes > 0)
            {
                double middle = (fromSec + toSec) / 2;
                double meanW = toSec > fromSec ? (toJ - fromJ) / (toSec - fromSec) : input.RestW;
                double sigma = input.TemperatureSigmaGridK.Length > 0 ? input.TemperatureSigmaGridK[Math.Clamp((int)Math.Round(middle / 3600), 0, input.GridCount - 1)] : input.TemperatureSigmaK;
                HeatAir air = _model.Sweat.AirAt(middle, _model.SectionHeightM(j));
                double sun = _model.SunShare(j, middle), warmer = warmerSd * sigma;
                double airC = Math.Clamp(air.AirC + warmer, -40, 60);
                double metabolic = meanW / _areaM2;
                var setup = new HeatStrainSetup(HeatStrainInput.Standard with
                {
                    AirC = airC,
                    RadiantC = air.RadiantShadeC + ((air.RadiantSunC - air.RadiantShadeC) * sun) + warmer,
                    AirSpeedMps = air.AirMps,
                    VapourKpa = HeatStrainInput.VapourFromHumidityKpa(airC, Math.Clamp(air.RelHumidityPct, 0, 100)),
                    MetabolicWPerM2 = metabolic,
                    WorkWPerM2 = SweatTable.WorkW(meanW) / _areaM2,
                    ClothingClo = _clo,
                    MassKg = _massKg,
                    HeightM = _heightM,
                    Acclimatised = _acclimatised,
                });
                for (int i = 0; i < minutes; i++)
                {
                    HeatStrainKernel.Advance(ref body, in setup, 1);
                    doneSec += 60;
                    if (body.RectalC > highestC)
                    {
                        highestC = body.RectalC;
                        highestSec = doneSec;
                    }

                    if (double.IsNaN(limitSec) && body.RectalC >= LimitC)
                    {
                        limitSec = doneSec;
                    }
                }
            }

            if (rectalC.Length > 0)
            {
                rectalC[j] = body.RectalC;
            }

            (fromSec, fromJ) = (toSec, toJ);
        }
    }

    [Source("iso-7933-2004", "limit of the rectal temperature for work")]
    public const double LimitC = 38;

    [Source("bouchama-2002", "heat stroke: core temperature above 40 °C")]
    public const double BearableC = 40;
}
