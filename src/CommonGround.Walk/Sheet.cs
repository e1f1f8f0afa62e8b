namespace CommonGround.Walk;

/// <summary>What stands over the list.</summary>
public enum Sheet { None, Change, Wildlife, Weed, New, Photo, List, End }
