namespace CommonGround.Web.Access;

/// <summary>What somebody can want to do here. Every page, endpoint, command and write names one; <see cref="AccessTable"/> says whose it
/// is.</summary>
public enum Permission
{
    /// <summary>Open what everybody may see: pages without households, sign-in, health.</summary>
    SeePublic,

    /// <summary>Look after one's own account.</summary>
    KeepAccount,

    /// <summary>Open a yard whole: place, household, plantings, report.</summary>
    SeeYard,

    /// <summary>Record in a yard and plan for it.</summary>
    RecordInYard,

    /// <summary>Change a yard's facts, consent and photos, or take it out.</summary>
    KeepYard,

    /// <summary>Register a new yard.</summary>
    RegisterYard,

    /// <summary>Say that a value of a plant looks wrong.</summary>
    DoubtPlant,

    /// <summary>Close such notes, and put a value in the catalogue's place.</summary>
    OverridePlant,

    /// <summary>See what was changed, and take it back.</summary>
    SeeHistory,

    /// <summary>Do the neighbourhood's work: files, rules, prices, places, street reports, everybody's figures.</summary>
    Organise,

    /// <summary>See who takes part, and invite.</summary>
    Invite,

    /// <summary>Give roles, and set what the group is.</summary>
    Administer,

    /// <summary>Run a command on the machine: whoever has the machine has the record, no page or endpoint may ask for it.</summary>
    HaveTheMachine,
}

/// <summary>How much of it.</summary>
public enum Scope { None, Own, All }
