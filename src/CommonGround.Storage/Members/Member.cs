using CommonGround.Storage.Places;
using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Metadata.Builders;

namespace CommonGround.Storage.Members;

public enum Role { Visitor, Member, Organiser, Administrator }

/// <summary>Someone who takes part in a neighbourhood. Sign-in stands elsewhere; this row is who owns and records.</summary>
public sealed class Member
{
    public int NeighbourhoodId { get; set; }
    public long Id { get; set; }
    public required string Name { get; set; }
    public Role Role { get; set; }
}

internal sealed class MemberMapping : IEntityTypeConfiguration<Member>
{
    public void Configure(EntityTypeBuilder<Member> builder)
    {
        builder.HasRow(m => new { m.NeighbourhoodId, m.Id }, m => m.Id);
        builder.HasOne<Neighbourhood>().WithMany().HasForeignKey(m => m.NeighbourhoodId);
        builder.Property(m => m.Name).HasMaxLength(200);
    }
}
