namespace CommonGround.Web.Features.Community;

/// <summary>The neighbourhood this host shows.</summary>
public sealed record CurrentNeighbourhood(int Id, string Name, bool IsDemo);
