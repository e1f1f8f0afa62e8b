namespace CommonGround.Storage.Saving;

/// <summary>Something the person can correct, said beside the field it concerns; an empty field speaks of the whole.</summary>
public sealed record Problem(string Field, string Message);
