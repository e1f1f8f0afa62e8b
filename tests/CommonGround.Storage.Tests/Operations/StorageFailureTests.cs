using System.Net.Sockets;
using CommonGround.Storage.Operations;
using Microsoft.Data.Sqlite;
using Microsoft.EntityFrameworkCore;
using Npgsql;

namespace CommonGround.Storage.Tests.Operations;

/// <summary>Codes from https://www.sqlite.org/rescode.html and https://www.postgresql.org/docs/current/errcodes-appendix.html.</summary>
public class StorageTroubleTests
{
    [Theory]
    [InlineData(13, StorageFailureKind.Full)]
    [InlineData(8, StorageFailureKind.ReadOnly)]
    [InlineData(5, StorageFailureKind.Busy)]
    [InlineData(6, StorageFailureKind.Busy)]
    [InlineData(14, StorageFailureKind.Away)]
    [InlineData(10, StorageFailureKind.Damaged)]
    [InlineData(11, StorageFailureKind.Damaged)]
    public void Sqlites_refusals_are_told_apart(int code, StorageFailureKind kind) =>
        StorageFailure.Of(new DbUpdateException("wrapped", new SqliteException("said", code)))!.Kind.ShouldBe(kind);

    [Theory]
    [InlineData("53100", StorageFailureKind.Full, false)]
    [InlineData("25006", StorageFailureKind.ReadOnly, false)]
    [InlineData("53300", StorageFailureKind.Busy, false)]
    [InlineData("57P02", StorageFailureKind.Away, true)]
    [InlineData("57P03", StorageFailureKind.Away, false)]
    [InlineData("08006", StorageFailureKind.Away, true)]
    [InlineData("XX001", StorageFailureKind.Damaged, false)]
    public void Postgresqls_refusals_are_told_apart(string state, StorageFailureKind kind, bool mayBeStored) =>
        StorageFailure.Of(new DbUpdateException("wrapped", new PostgresException("said", "ERROR", "ERROR", state)))
            .ShouldBe(new StorageFailure(kind, mayBeStored));

    [Fact]
    public void A_server_that_is_not_there_has_stored_nothing_and_one_that_went_away_in_the_middle_may_have()
    {
        StorageFailure.Of(new NpgsqlException("no", new SocketException((int)SocketError.ConnectionRefused)))!.Message
            .ShouldContain("this was not saved");
        StorageFailure.Of(new DbUpdateException("wrapped", new NpgsqlException("gone", new IOException())))!.Message
            .ShouldContain("may or may not be stored");
    }

    [Fact]
    public void A_bug_and_a_broken_rule_are_no_trouble_of_the_storage()
    {
        StorageFailure.Of(new InvalidOperationException()).ShouldBeNull();
        StorageFailure.Of(new DbUpdateConcurrencyException()).ShouldBeNull();
        StorageFailure.Of(new DbUpdateException("wrapped", new SqliteException("constraint", 19))).ShouldBeNull();
        StorageFailure.Of(new DbUpdateException("wrapped", new PostgresException("unique", "ERROR", "ERROR", "23505"))).ShouldBeNull();
    }

    [Fact]
    public void Every_message_says_that_what_was_typed_is_kept()
    {
        foreach (var kind in Enum.GetValues<StorageFailureKind>())
        {
            new StorageFailure(kind, false).Message.ShouldContain("what you typed is kept here", Case.Insensitive);
        }
    }
}
