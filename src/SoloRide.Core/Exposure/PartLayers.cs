namespace SoloRide.Exposure;

/// <summary>Clothing in one part of the ride.</summary>
/// <param name="Part">The part.</param>
/// <param name="NeededMinimalClo">Basic insulation needed, minimal level [clo].</param>
/// <param name="NeededNeutralClo">Basic insulation needed, neutral level [clo].</param>
/// <param name="WornClo">Worn, after wetness, protective wear included where its heat load is known [clo].</param>
/// <param name="PutOn">Carried garments to put on, dry; the fewest that reach the minimal level and among those the least warm, else all.</param>
/// <param name="WithPutOnClo">Insulation then [clo].</param>
/// <param name="MissingClo">Still missing for the minimal level [clo].</param>
/// <param name="StrainLimit">Time until the limit of strain with what is then worn; null when the body does not cool.</param>
/// <param name="Verdict">In a word.</param>
/// <param name="Stowed">Protective wear not worn in this part.</param>
public sealed record PartLayers(
    RidePart Part,
    double NeededMinimalClo,
    double NeededNeutralClo,
    double WornClo,
    IReadOnlyList<Garment> PutOn,
    double WithPutOnClo,
    double MissingClo,
    TimeSpan? StrainLimit,
    LayerVerdict Verdict,
    IReadOnlyList<ProtectiveWear> Stowed);
