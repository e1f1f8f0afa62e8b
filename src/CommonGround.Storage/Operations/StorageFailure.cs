using System.Net.Sockets;
using Microsoft.Data.Sqlite;
using Npgsql;

namespace CommonGround.Storage.Operations;

public enum StorageFailureKind
{
    /// <summary>No room left on the disk.</summary>
    Full,

    /// <summary>The database may only be read.</summary>
    ReadOnly,

    /// <summary>Others are writing; trying again helps.</summary>
    Busy,

    /// <summary>The database does not answer, or went away in the middle.</summary>
    Away,

    /// <summary>The disk refuses or the file is damaged.</summary>
    Damaged,
}

/// <summary>A write that the database refused for a reason outside the program, in words for the person who saved.</summary>
/// <param name="MayBeStored">The answer got lost after the write had been sent: it may be stored all the same.</param>
public sealed record StorageFailure(StorageFailureKind Kind, bool MayBeStored)
{
    /// <summary>What happened, what is safe and what to do.</summary>
    public string Message => Kind switch
    {
        StorageFailureKind.Full =>
            "The disk that holds the record is full, so this was not saved. Everything saved before is safe, and what you typed is kept "
                + "here. Tell whoever looks after this site to make room; then save again.",
        StorageFailureKind.ReadOnly =>
            "The record can only be read at the moment, so this was not saved. Everything saved before is safe, and what you typed is "
                + "kept here. Tell whoever looks after this site; then save again.",
        StorageFailureKind.Busy =>
            "Others were saving for so long that this had no turn, so it was not saved. What you typed is kept here: save again in a "
                + "moment.",
        StorageFailureKind.Away when MayBeStored =>
            "The database went away while this was being saved, so it may or may not be stored. What you typed is kept here: load the "
                + "page again and look whether it is there before you save once more.",
        StorageFailureKind.Away =>
            "The database does not answer, so this was not saved. Everything saved before is safe, and what you typed is kept here: save "
                + "again in a few minutes.",
        _ => "The disk refused to store this, so it was not saved. What you typed is kept here. Tell whoever looks after this site to run "
            + "the check command and to look at the disk before anything else is recorded.",
    };

    /// <summary>The trouble behind a failed write or read; null where the failure has another reason (a bug, a row that broke a rule,
    /// somebody else's save).</summary>
    public static StorageFailure? Of(Exception failure)
    {
        for (var e = failure; e is not null; e = e.InnerException)
        {
            var trouble = e switch
            {
                SqliteException sqlite => OfSqlite(sqlite.SqliteErrorCode),
                PostgresException postgres => OfPostgres(postgres.SqlState),
                NpgsqlException => new StorageFailure(StorageFailureKind.Away, MayBeStored: true),
                SocketException => new StorageFailure(StorageFailureKind.Away, MayBeStored: false),
                _ => null,
            };
            if (trouble is not null)
            {
                return e is NpgsqlException
                {
                    InnerException: SocketException
                    {
                        SocketErrorCode: SocketError.ConnectionRefused
                    or SocketError.HostNotFound or SocketError.HostUnreachable or SocketError.NetworkUnreachable
                    }
                }
                    ? trouble with { MayBeStored = false } : trouble;
            }
        }

        return null;
    }

    /// <remarks>Source: https://www.sqlite.org/rescode.html</remarks>
    private static StorageFailure? OfSqlite(int code) => code switch
    {
        13 => new(StorageFailureKind.Full, false),
        8 => new(StorageFailureKind.ReadOnly, false),
        5 or 6 => new(StorageFailureKind.Busy, false), // BUSY, LOCKED
        14 => new(StorageFailureKind.Away, false), // CANTOPEN
        10 or 11 or 26 => new(StorageFailureKind.Damaged, false), // IOERR, CORRUPT, NOTADB
        _ => null,
    };

    /// <remarks>Source: https://www.postgresql.org/docs/current/errcodes-appendix.html</remarks>
    private static StorageFailure? OfPostgres(string state) => state switch
    {
        "53100" => new(StorageFailureKind.Full, false), // disk_full
        "25006" => new(StorageFailureKind.ReadOnly, false), // read_only_sql_transaction
        // too_many_connections, lock_not_available, deadlock_detected, query_canceled
        "53300" or "55P03" or "40P01" or "57014" => new(StorageFailureKind.Busy, false),
        "57P01" or "57P02" => new(StorageFailureKind.Away, true), // admin_shutdown, crash_shutdown
        "57P03" or "3D000" => new(StorageFailureKind.Away, false), // cannot_connect_now, no such database
        "58030" or "XX001" or "XX002" => new(StorageFailureKind.Damaged, false), // io_error, data_corrupted, index_corrupted
        _ when state.StartsWith("08", StringComparison.Ordinal) => new(StorageFailureKind.Away, true),
        _ => null,
    };
}
