using CommonGround.Storage.Members;

namespace CommonGround.Web.Access;

/// <summary>Who may do what: the one table. Own means one's own yards, account or changes.</summary>
public static class AccessTable
{
    private static readonly Dictionary<Permission, Scope[]> Rows = new()
    {
        //                          visitor     member      organiser   administrator
        [Permission.SeePublic] = [Scope.All, Scope.All, Scope.All, Scope.All],
        [Permission.KeepAccount] = [Scope.None, Scope.Own, Scope.Own, Scope.Own],
        [Permission.SeeYard] = [Scope.None, Scope.Own, Scope.All, Scope.All],
        [Permission.RecordInYard] = [Scope.None, Scope.Own, Scope.All, Scope.All],
        [Permission.KeepYard] = [Scope.None, Scope.Own, Scope.All, Scope.All],
        [Permission.RegisterYard] = [Scope.None, Scope.All, Scope.All, Scope.All],
        [Permission.DoubtPlant] = [Scope.None, Scope.All, Scope.All, Scope.All],
        [Permission.OverridePlant] = [Scope.None, Scope.None, Scope.All, Scope.All],
        [Permission.SeeHistory] = [Scope.None, Scope.Own, Scope.All, Scope.All],
        [Permission.Organise] = [Scope.None, Scope.None, Scope.All, Scope.All],
        [Permission.Invite] = [Scope.None, Scope.None, Scope.All, Scope.All],
        [Permission.Administer] = [Scope.None, Scope.None, Scope.None, Scope.All],
        [Permission.HaveTheMachine] = [Scope.None, Scope.None, Scope.None, Scope.None],
    };

    /// <summary>What each command of the machine is for. A test fails when one is missing here.</summary>
    public static IReadOnlyDictionary<string, Permission> Commands
    {
        get;
    } = new[] { "begin", "import", "measures", "report", "plan", "workday", "export", "backup", "restore", "migrate", "check" }
        .ToDictionary(name => name, _ => Permission.HaveTheMachine, StringComparer.Ordinal);

    /// <summary>Methods that a browser's script may call by name: none. Live pages get events of their own elements, and each write asks
    /// this table again.</summary>
    public static IReadOnlyList<string> CalledFromScript { get; } = [];

    /// <summary>What the framework's hub lets a browser call; all of it moves a page that the gate has let through.</summary>
    public static IReadOnlyList<string> HubMethods { get; } =
    [
        "StartCircuit", "ConnectCircuit", "PauseCircuit", "ResumeCircuit", "UpdateRootComponents", "BeginInvokeDotNetFromJS",
            "EndInvokeJSFromDotNet", "ReceiveByteArray",
        "ReceiveJSDataChunk", "SendDotNetStreamToJS", "OnRenderCompleted", "OnLocationChanged", "OnLocationChanging",
    ];

    public static Scope Of(Permission act, Role role) => Rows[act][(int)role];

    /// <param name="own">The yard, account or change is theirs.</param>
    public static bool Allows(Permission act, Role role, bool own) => Of(act, role) switch
    {
        Scope.All => true,
        Scope.Own => own,
        _ => false
    };
}

/// <summary>Names what a page or endpoint is for; without it nobody gets in.</summary>
[AttributeUsage(AttributeTargets.Class)]
public sealed class RequiresAttribute(Permission act) : Attribute
{
    public Permission Permission => act;
}
