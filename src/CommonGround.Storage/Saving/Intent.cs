using CommonGround.Storage.History;

namespace CommonGround.Storage.Saving;

/// <summary>What a write makes of its look at the record: store what the context holds, under this note, or the problems that stand against
/// it.</summary>
public sealed class Intent
{
    private Intent(ChangeNote? note, IReadOnlyList<Problem> problems) => (Note, Problems) = (note, problems);

    /// <summary>Everything is as it should be already.</summary>
    public static Intent Nothing { get; } = new(null, []);

    internal ChangeNote? Note { get; }

    internal IReadOnlyList<Problem> Problems { get; }

    public static Intent Refuse(IReadOnlyList<Problem> problems) => problems is { Count: > 0 } ? new(null, problems)
        : throw new ArgumentException("A refusal says why.", nameof(problems));

    public static Intent Refuse(string field, string message) => new(null, [new(field, message)]);

    public static Intent Store(ChangeNote note) => new(note, []);

    public static implicit operator Intent(ChangeNote note) => Store(note);

    public static implicit operator Intent(Problem problem) => Refuse([problem]);
}

/// <summary>Stored, or the problems that stood against it: then nothing was.</summary>
/// <param name="ChangeId">The number of the change in history; null when nothing was stored, 0 when there was nothing to store.</param>
/// <param name="Problems">Empty when stored.</param>
/// <param name="IsTrouble">The database refused for a reason outside the program: a full disk, a lock, a lost connection.</param>
public sealed record Saved(long? ChangeId, IReadOnlyList<Problem> Problems, bool IsTrouble = false)
{
    public bool IsStored => Problems.Count == 0;
}

/// <summary>A step within something larger was not stored; the message is in words, and <see cref="Door.TryAsync"/> passes it on.</summary>
public sealed class NotStoredException : Exception
{
    public NotStoredException(Problem problem) : base((problem ?? throw new ArgumentNullException(nameof(problem))).Message) { }

    public NotStoredException() { }

    public NotStoredException(string message) : base(message) { }

    public NotStoredException(string message, Exception inner) : base(message, inner) { }
}

/// <summary>What was looked at before a write no longer holds. Nothing was written; the door looks again.</summary>
public sealed class OvertakenException : Exception
{
    public OvertakenException() : base("Somebody saved since this was checked.") { }

    public OvertakenException(string message) : base(message) { }

    public OvertakenException(string message, Exception inner) : base(message, inner) { }
}
