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
        [Act.DoubtPlant] = [Reach.None, Reach.All, Reach.All, Reach.All],
        [Act.OverridePlant] = [Reach.None, Reach.None, Reach.All, Reach.All],
        [Act.SeeHistory] = [Reach.None, Reach.Own, Reach.All, Reach.All],
        [Act.Organise] = [Reach.None, Reach.None, Reach.All, Reach.All],
        [Act.Invite] = [Reach.None, Reach.None, Reach.All, Reach.All],
        [Act.Administer] = [Reach.None, Reach.None, Reach.None, Reach.All],
        [Act.HaveTheMachine] = [Reach.None, Reach.None, Reach.None, Reach.None],
    };

    /// <summary>What each command of the machine is for. A test fails when one is missing here.</summary>
    public static IReadOnlyDictionary<string, Act> Commands { get; } = new[] { "import", "measures", "report", "plan", "export", "backup", "restore", "migrate", "check" }
        .ToDictionary(name => name, _ => Act.HaveTheMachine, StringComparer.Ordinal);

    /// <summary>Methods that a browser's script may call by name: none. Live pages get events of their own elements, and each write asks this table again.</summary>
    public static IReadOnlyList<string> CalledFromScript { get; } = [];

    /// <summary>What the framework's hub lets a browser call; all of it moves a page that the gate has let through.</summary>
    public static IReadOnlyList<string> HubMethods { get; } =
    [
        "StartCircuit", "ConnectCircuit", "PauseCircuit", "ResumeCircuit", "UpdateRootComponents", "BeginInvokeDotNetFromJS", "EndInvokeJSFromDotNet", "ReceiveByteArray",
        "ReceiveJSDataChunk", "SendDotNetStreamToJS", "OnRenderCompleted", "OnLocationChanged", "OnLocationChanging",
    ];

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
