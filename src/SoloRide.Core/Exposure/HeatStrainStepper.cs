namespace SoloRide.Exposure;

/// <summary>The body as it is carried along a ride: a mutable value without allocations.</summary>
/// <remarks>
/// <code>
/// var body = HeatStrainStepper.From(HeatStrainState.Start);
/// var setup = new HeatStrainSetup(input);      // once per stretch of constant conditions
/// HeatStrainKernel.Advance(ref body, in setup, minutes);
/// double gramsPerHour = body.SweatGramsPerHour(in setup);
/// </code>
/// </remarks>
internal struct HeatStrainStepper
{
    public int Minute;
    public double SkinC;
    public double CoreC;
    public double RectalC;
    public double CoreTargetC;
    public double SkinShare;
    public double ClothingC;
    public double SweatWPerM2;
    public double LossG;
    public int CoreLimitMinute;
    public int MeanLossLimitMinute;
    public int LossLimitMinute;

    // Of the last minute; no state.
    public double ConvectionWPerM2;
    public double RadiationWPerM2;
    public double RequiredEvaporationWPerM2;
    public double HighestEvaporationWPerM2;
    public double EvaporationWPerM2;
    public double StorageWPerM2;
    public double CoreTargetStorageWPerM2;
    public double UnbalancedWPerM2;

    public static HeatStrainStepper Rested => From(HeatStrainState.Start);

    public readonly HeatStrainState State => new()
    {
        Minute = Minute,
        SkinC = SkinC,
        CoreC = CoreC,
        RectalC = RectalC,
        CoreTargetC = CoreTargetC,
        SkinShareFraction = SkinShare,
        ClothingSurfaceC = ClothingC,
        SweatWPerM2 = SweatWPerM2,
        LossG = LossG,
        CoreLimitMinute = CoreLimitMinute,
        MeanLossLimitMinute = MeanLossLimitMinute,
        LossLimitMinute = LossLimitMinute,
    };

    public static HeatStrainStepper From(in HeatStrainState s) => new()
    {
        Minute = s.Minute,
        SkinC = s.SkinC,
        CoreC = s.CoreC,
        RectalC = s.RectalC,
        CoreTargetC = s.CoreTargetC,
        SkinShare = s.SkinShareFraction,
        ClothingC = s.ClothingSurfaceC,
        SweatWPerM2 = s.SweatWPerM2,
        LossG = s.LossG,
        CoreLimitMinute = s.CoreLimitMinute,
        MeanLossLimitMinute = s.MeanLossLimitMinute,
        LossLimitMinute = s.LossLimitMinute,
    };

    /// <summary>Water loss at the present sweat rate, breath included.</summary>
    public readonly double LossGramsPerHour(in HeatStrainSetup c) => (SweatWPerM2 + c.BreathWetWPerM2) * c.GramsPerWPerM2 * 60;

    /// <summary>Sweat alone at the present rate.</summary>
    public readonly double SweatGramsPerHour(in HeatStrainSetup c) => SweatWPerM2 * c.GramsPerWPerM2 * 60;
}
