using CommonGround.Storage.History;
using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Metadata.Builders;

namespace CommonGround.Storage.Members;

/// <summary>Lets one person join a neighbourhood, once, until a day.</summary>
public sealed class Invitation
{
    public int NeighbourhoodId { get; set; }
    public long Id { get; set; }

    /// <summary>SHA-256 of the code: whoever reads the database cannot use it.</summary>
    public required string CodeHash { get; set; }
    public Role Role { get; set; }

    /// <summary>Whom it is for, in the inviter's words or an e-mail address.</summary>
    public string ForWhom { get; set; } = "";
    public long? MadeById { get; set; }
    public DateTime MadeAtUtc { get; set; }
    public DateTime EndsAtUtc { get; set; }
    public DateTime? UsedAtUtc { get; set; }
    public long? UsedById { get; set; }
    public DateTime? WithdrawnAtUtc { get; set; }

    /// <summary>Renewed with every save: of two people with the same code only the first gets in.</summary>
    public Guid Version { get; set; }
}

internal sealed class InvitationMapping : IEntityTypeConfiguration<Invitation>
{
    public void Configure(EntityTypeBuilder<Invitation> builder)
    {
        builder.HasHistory(RowKinds.Invitation);
        builder.ToTable("Invitations");
        builder.HasRow(i => new { i.NeighbourhoodId, i.Id }, i => i.Id);
        builder.HasOne<Member>().WithMany().HasForeignKey(i => new { i.NeighbourhoodId, i.MadeById }).OnDelete(DeleteBehavior.Restrict);
        builder.HasOne<Member>().WithMany().HasForeignKey(i => new { i.NeighbourhoodId, i.UsedById }).OnDelete(DeleteBehavior.Restrict);
        builder.Property(i => i.CodeHash).HasMaxLength(64);
        builder.Property(i => i.ForWhom).HasMaxLength(256);
        builder.Property(i => i.Version).IsConcurrencyToken().IsWorkedOut();
        builder.HasIndex(i => i.CodeHash).IsUnique();
    }
}
