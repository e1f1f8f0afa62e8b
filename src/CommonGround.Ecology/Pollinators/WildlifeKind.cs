namespace CommonGround.Ecology.Pollinators;

/// <summary>Animals on a plant, in groups that somebody on a walk can tell apart without catching them.</summary>
public enum WildlifeKind { Bee, BumbleBee, Wasp, Fly, Butterfly, Caterpillar, Hummingbird, Bird, Other }

/// <summary>How many of a kind were seen on a plant at once. Classes, because nobody counts a moving bee exactly; common
/// practice.</summary>
public enum CountClass { One, TwoToFive, SixToTwenty, MoreThanTwenty }
