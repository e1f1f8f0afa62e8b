using CommonGround.Ecology.Phenology;
using CommonGround.Storage.Members;

namespace CommonGround.Web.Layout;

/// <summary>Who is looking and how they like it shown. Made from the request by the page's root, so a page cannot change it.</summary>
/// <param name="Role">What they may do.</param>
/// <param name="MemberId">Their member row, if any.</param>
/// <param name="Name">How the record calls them.</param>
/// <param name="Customary">US customary units instead of metric.</param>
/// <param name="Theme">system, light or dark.</param>
public sealed record Viewer(Role Role, long? MemberId, string Name, bool Customary, string Theme = "system")
{
    /// <summary>The group's season, which every chart shares.</summary>
    public Season Season { get; init; } = Season.Default;

    public bool MayOrganise => Role is Role.Organiser or Role.Administrator;

    /// <summary>May see a yard whole: its household and organisers.</summary>
    public bool MaySee(long? ownerId) => MayOrganise || Owns(ownerId);

    /// <summary>May record in a yard: its household and organisers.</summary>
    public bool MayRecord(long? ownerId) => MayOrganise || Owns(ownerId);

    /// <summary>May register a new yard.</summary>
    public bool MayRegister => Role != Role.Visitor;

    public Shared.Units Units => new(Customary);

    private bool Owns(long? ownerId) => Role == Role.Member && ownerId is not null && ownerId == MemberId;
}
