using CommonGround.Storage.Members;

namespace CommonGround.Web.Access;

/// <summary>Who may do what: the one table. Own means one's own yards, account or changes.</summary>
public static class AccessTable
{
    private static readonly Dictionary<Act, Reach[]> Rows = new()
    {
        //                          visitor     member      organiser   administrator
        [Act.SeePublic] = [Reach.All, Reach.All, Reach.All, Reach.All],
        [Act.KeepAccount] = [Reach.None, Reach.Own, Reach.Own, Reach.Own],
        [Act.SeeYard] = [Reach.None, Reach.Own, Reach.All, Reach.All],
        [Act.RecordInYard] = [Reach.None, Reach.Own, Reach.All, Reach.All],
        [Act.KeepYard] = [Reach.None, Reach.Own, Reach.All, Reach.All],
        [Act.RegisterYard] = [Reach.None, Reach.All, Reach.All, Reach.All],
        [Act.SeeHistory] = [Reach.None, Reach.Own, Reach.All, Reach.All],
        [Act.Organise] = [Reach.None, Reach.None, Reach.All, Reach.All],
        [Act.Invite] = [Reach.None, Reach.None, Reach.All, Reach.All],
        [Act.Administer] = [Reach.None, Reach.None, Reach.None, Reach.All],
        [Act.HaveTheMachine] = [Reach.None, Reach.None, Reach.None, Reach.None],
    };

    public static Reach Of(Act act, Role role) => Rows[act][(int)role];

    /// <param name="own">The yard, account or change is theirs.</param>
    public static bool Allows(Act act, Role role, bool own) => Of(act, role) switch { Reach.All => true, Reach.Own => own, _ => false };
}

/// <summary>Names what a page or endpoint is for; without it nobody gets in.</summary>
[AttributeUsage(AttributeTargets.Class)]
public sealed class RequiresAttribute(Act act) : Attribute
{
    public Act Act => act;
}
