namespace CommonGround.Ecology.Taxa;

/// <summary>Whether a taxon grew in the region before settlement. <see cref="Unknown"/> is only for taxa the catalogue does not
/// list.</summary>
public enum Nativity { Unknown, Native, Introduced }

/// <summary>Growth form as the catalogue gives it.</summary>
public enum LifeForm { Unknown, Forb, Grass, Sedge, Legume, Shrub, Tree, Vine, Fern, Turf }

/// <summary>Light at ground level over the growing season.</summary>
public enum Light { FullSun, PartShade, Shade }

/// <summary>Soil moisture in an ordinary summer.</summary>
public enum Moisture { Dry, Medium, Moist, Wet }

/// <summary>How much harm an unwanted plant does to native vegetation.</summary>
public enum ImpactRank { Unranked, Low, Medium, High }

/// <summary>How a plant came to grow where it was seen (Darwin Core establishmentMeans and degreeOfEstablishment).</summary>
public enum Origin { Unknown, Planted, SelfSown, Relict }

/// <summary>How sure the observer is of the name (Darwin Core identificationVerificationStatus).</summary>
public enum Certainty { Certain, Probable, Tentative }

/// <summary>
/// What a look at a planting found. Ended: taken out or given up. Died: it was there and is dead. NotFound: looked for and not seen this
/// time; it may well be there, so it ends nothing. A planting that never was is none of these: its records are removed.
/// </summary>
public enum Finding { Growing, Ended, Died, NotFound }

/// <summary>NRCS hydrologic soil group; A drains fastest, D slowest.</summary>
public enum SoilGroup { A, B, C, D }

/// <summary>How often a plant grows in wetlands (Lichvar and others 2012): obligate almost always, facultative as often as not, upland
/// almost never.</summary>
public enum WetlandIndicator { Unknown, Obligate, FacultativeWetland, Facultative, FacultativeUpland, Upland }

/// <summary>Kind of vegetation a plant belongs to. Disturbed ground and gardens are no natural community.</summary>
public enum PlantCommunity { Prairie, Savanna, Woodland, Wetland, Disturbed, Garden }

/// <summary>What a plant does to whom, the gravest first.</summary>
public enum ToxicityClass { DeadlyToPeople, PoisonousIfEaten, HarmsSkinOrEyes, HarmsPetsOrStock }
