using CommonGround.Storage.Accounts;
using CommonGround.Storage.History;
using CommonGround.Storage.Places;
using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Metadata.Builders;

namespace CommonGround.Storage.Members;

public enum Role { Visitor, Member, Organiser, Administrator }

/// <summary>Someone who takes part in a neighbourhood: who owns and records there, and what they may do.</summary>
public sealed class Member
{
    public int NeighbourhoodId { get; set; }
    public long Id { get; set; }
    public required string Name { get; set; }

    /// <summary>A visitor here is somebody who has left.</summary>
    public Role Role { get; set; }

    /// <summary>Who signs in as this member; null for the demo's and for those who have left.</summary>
    public long? AccountId { get; set; }
}

internal sealed class MemberMapping : IEntityTypeConfiguration<Member>
{
    public void Configure(EntityTypeBuilder<Member> builder)
    {
        builder.HasHistory(RowKinds.Member);
        builder.HasRow(m => new { m.NeighbourhoodId, m.Id }, m => m.Id);
        builder.HasOne<Neighbourhood>().WithMany().HasForeignKey(m => m.NeighbourhoodId);
        builder.HasOne<Account>().WithMany().HasForeignKey(m => m.AccountId).OnDelete(DeleteBehavior.SetNull);
        builder.Property(m => m.Name).HasMaxLength(200);
        builder.HasIndex(m => new { m.NeighbourhoodId, m.AccountId }).IsUnique();
    }
}
