using CommonGround.Ecology.Phenology;
using CommonGround.Storage.History;
using CommonGround.Storage.Members;
using CommonGround.Web.Access;

namespace CommonGround.Web.Layout;

/// <summary>Who is looking and how they like it shown. Made from the request by the page's root, so a page cannot change it.</summary>
/// <param name="Role">What they may do in this neighbourhood.</param>
/// <param name="MemberId">Their member row, if any.</param>
/// <param name="Name">How the record calls them.</param>
/// <param name="Customary">US customary units instead of metric.</param>
/// <param name="Theme">system, light or dark.</param>
public sealed record CurrentUser(Role Role, long? MemberId, string Name, bool Customary, string Theme = "system")
{
    /// <summary>The group's season, which every chart shares.</summary>
    public Season Season { get; init; } = Season.Default;

    /// <summary>Where they look: the neighbourhood of the page.</summary>
    public int NeighbourhoodId { get; init; } = 1;

    /// <summary>Who is signed in, member of this neighbourhood or not; null for strangers and in the demo.</summary>
    public long? AccountId { get; init; }

    public Guid? SessionId { get; init; }

    /// <summary>The network they come from, shortened.</summary>
    public string From { get; init; } = "";

    public bool MayOrganise => May(Permission.Organise);

    /// <summary>May see a yard whole: its household and organisers.</summary>
    public bool MaySee(long? ownerId) => May(Permission.SeeYard, ownerId);

    /// <summary>May record in a yard: its household and organisers.</summary>
    public bool MayRecord(long? ownerId) => May(Permission.RecordInYard, ownerId);

    /// <summary>May register a new yard.</summary>
    public bool MayRegister => May(Permission.RegisterYard);

    public Shared.Units Units => new(Customary);

    /// <summary>Asks the one table.</summary>
    /// <param name="ownerId">The member whose yard or change it is, where it is somebody's.</param>
    public bool May(Permission act, long? ownerId = null) => AccessTable.Allows(act, Role, Owns(ownerId));

    public bool Owns(long? ownerId) => ownerId is not null && ownerId == MemberId;

    /// <summary>What a save of theirs says of itself.</summary>
    public ChangeNote Note(string what) => new(NeighbourhoodId, what, MemberId, Role, From) { SessionId = SessionId };
}
