using CommonGround.Interchange.Walks;

namespace CommonGround.Walk;

/// <summary>The last thing that was tapped, to be taken back.</summary>
public sealed record WalkStep(string Name, string Words, WalkNote Note)
{
    public static WalkStep? LastOf(WalkSession session, Pack pack, bool customary)
    {
        ArgumentNullException.ThrowIfNull(session);
        ArgumentNullException.ThrowIfNull(pack);
        return session.Notes.Count == 0 ? null : Of(session.Notes[^1], session, pack, customary);
    }

    private static WalkStep Of(WalkNote note, WalkSession session, Pack pack, bool customary)
    {
        var name = session.Items.FirstOrDefault(i => i.Plant.Taxon == note.Taxon)?.Plant.CommonName
            ?? (pack.Taxon(note.Taxon) is { CommonNames: [var common, ..] } ? common : note.Taxon.Length > 0 ? note.Taxon : "the yard");
        return new(name, note switch
        {
            { Look: { } look } => WalkWords.Of(look, customary),
            { Wildlife: { } seen } => $"{WalkWords.Of(seen.Kind).ToLowerInvariant()}, {WalkWords.Of(seen.Count)}",
            { Unwanted: { } weed } => $"unwanted, {WalkWords.Area(weed.AreaSquareMetres, customary)}",
            _ => "photo",
        }, note);
    }
}
