using CommonGround.Storage.Members;

namespace CommonGround.Storage.History;

/// <summary>What a save says of itself: who, what, from where.</summary>
/// <param name="NeighbourhoodId">Every row of the save belongs to it.</param>
public sealed record ChangeNote(int NeighbourhoodId, string What, long? MemberId, Role? By, string From)
{
    /// <summary>Looked up again at the save: a session that was ended writes nothing.</summary>
    public Guid? SessionId { get; init; }
    public long? UndoOfId { get; init; }
    public DateTime? EraseAtUtc { get; init; }

    /// <summary>False for what the program brings in itself: the files are at hand, nobody undoes it row by row.</summary>
    public bool KeepsRows { get; init; } = true;

    /// <summary>The program itself, or whoever has the machine.</summary>
    public static ChangeNote OfProgram(int neighbourhoodId, string what) => new(neighbourhoodId, what, null, null, "the machine");
}

/// <summary>The session was ended or the role changed since the page was made. Nothing was written.</summary>
public sealed class AccessLostException : Exception
{
    public AccessLostException() : base("You are no longer signed in as you were. Nothing was saved; sign in and save again.") { }

    public AccessLostException(string message) : base(message) { }

    public AccessLostException(string message, Exception inner) : base(message, inner) { }
}
