using System.Net.Sockets;
using CommonGround.Storage.Care;
using Microsoft.Data.Sqlite;
using Microsoft.EntityFrameworkCore;
using Npgsql;

namespace CommonGround.Storage.Tests.Care;

/// <summary>Codes from https://www.sqlite.org/rescode.html and https://www.postgresql.org/docs/current/errcodes-appendix.html.</summary>
public class StorageTroubleTests
{
    [Theory]
    [InlineData(13, TroubleKind.Full)]
    [InlineData(8, TroubleKind.ReadOnly)]
    [InlineData(5, TroubleKind.Busy)]
    [InlineData(6, TroubleKind.Busy)]
    [InlineData(14, TroubleKind.Away)]
    [InlineData(10, TroubleKind.Damaged)]
    [InlineData(11, TroubleKind.Damaged)]
    public void Sqlites_refusals_are_told_apart(int code, TroubleKind kind) =>
        StorageTrouble.Of(new DbUpdateException("wrapped", new SqliteException("said", code)))!.Kind.ShouldBe(kind);

    [Theory]
    [InlineData("53100", TroubleKind.Full, false)]
    [InlineData("25006", TroubleKind.ReadOnly, false)]
    [InlineData("53300", TroubleKind.Busy, false)]
    [InlineData("57P02", TroubleKind.Away, true)]
    [InlineData("57P03", TroubleKind.Away, false)]
    [InlineData("08006", TroubleKind.Away, true)]
    [InlineData("XX001", TroubleKind.Damaged, false)]
    public void Postgresqls_refusals_are_told_apart(string state, TroubleKind kind, bool mayBeStored) =>
        StorageTrouble.Of(new DbUpdateException("wrapped", new PostgresException("said", "ERROR", "ERROR", state))).ShouldBe(new StorageTrouble(kind, mayBeStored));

    [Fact]
    public void A_server_that_is_not_there_has_stored_nothing_and_one_that_went_away_in_the_middle_may_have()
    {
        StorageTrouble.Of(new NpgsqlException("no", new SocketException((int)SocketError.ConnectionRefused)))!.Message.ShouldContain("this was not saved");
        StorageTrouble.Of(new DbUpdateException("wrapped", new NpgsqlException("gone", new IOException())))!.Message.ShouldContain("may or may not be stored");
    }

    [Fact]
    public void A_bug_and_a_broken_rule_are_no_trouble_of_the_storage()
    {
        StorageTrouble.Of(new InvalidOperationException()).ShouldBeNull();
        StorageTrouble.Of(new DbUpdateConcurrencyException()).ShouldBeNull();
        StorageTrouble.Of(new DbUpdateException("wrapped", new SqliteException("constraint", 19))).ShouldBeNull();
        StorageTrouble.Of(new DbUpdateException("wrapped", new PostgresException("unique", "ERROR", "ERROR", "23505"))).ShouldBeNull();
    }

    [Fact]
    public void Every_message_says_that_what_was_typed_is_kept()
    {
        foreach (var kind in Enum.GetValues<TroubleKind>())
        {
            new StorageTrouble(kind, false).Message.ShouldContain("what you typed is kept here", Case.Insensitive);
        }
    }
}
